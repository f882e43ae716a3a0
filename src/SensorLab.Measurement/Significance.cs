namespace SensorLab.Measurement;

/// <summary>From when on a deviation is no accident: every such number, with its reason. All are standard deviations.</summary>
/// <remarks>
/// A finding needs two things: a deviation that chance does not make, which stands here, and a size below which the flaw is
/// harmless, which stands with the finding.
/// </remarks>
internal static class Significance
{
    /// <summary>
    /// Where chance is ruled out. A set of ten ISOs and four channels is put to some 800 tests. Even where an uncertainty
    /// is 30 % too small, 6 are 4.6 true ones: 4·10⁻⁶ a test, 0.3 % a set.
    /// </summary>
    public const double Deviations = 6;

    /// <summary>The same where an ISO is put to one test, whose uncertainty hangs on variances and numbers that are known well: 3·10⁻⁶.</summary>
    public const double WellKnown = 4.5;

    /// <summary>
    /// Where neighbours go together: chance brings 3·10⁻⁵ a test. An ISO is put to four for each kind of neighbours, and
    /// their uncertainty hangs on nothing but the number of pairs.
    /// </summary>
    public const double Neighbours = 4;

    /// <summary>Where neighbours are noted to go together: in small frames a filter that matters cannot stand out further.</summary>
    public const double DoubtfulNeighbours = 3;

    /// <summary>Where an excess of noise in all channels is noted: chance makes one at an ISO in 160. Below, gain's uncertainty allows for it.</summary>
    public const double DoubtfulExcess = 2.5;

    /// <summary>Within which two equal channels count as one: chance parts them at one ISO in 370, and then the lower one stands, half an uncertainty low.</summary>
    public const double SameChannel = 3;

    /// <summary>What a trend must keep clear of where a fit, with its own uncertainty, took another one out before: 95 % of that fit's.</summary>
    public const double ClearOfFit = 2;

    /// <summary>What two of some ten frames of a light that flickers may lie apart.</summary>
    public const double FlickeringFrames = 5;

    /// <summary>What the brightest and the dimmest of some hundred cells of a field may lie apart by noise.</summary>
    public const double RangeOfCells = 6;

    /// <summary>What the range of hundreds of blocks' means may reach by chance, in standard deviations of one.</summary>
    public const double RangeOfBlocks = 10;

    /// <summary>Where a cell of a field's map is no part of the field but holds a hot pixel: far beyond chance, since an uneven field has tails too.</summary>
    public const double StrayCell = 10;

    /// <summary>Where a value is left out of a mean: of a normal distribution none, of few electrons' none that matters.</summary>
    public const double StrayValue = 8;

    /// <summary>Where a block holds dust or structure: of thousands of clean ones none.</summary>
    public const double StrayBlock = 8;

    /// <summary>Where a pixel of a dark level is a defect: a normal distribution loses less than 2·10⁻⁵ of its variance, while one hot pixel in a thousand would add 4 %.</summary>
    public const double DefectInDark = 5;

    /// <summary>The same in a lit level, where few electrons make a skewed distribution.</summary>
    public const double DefectInLight = 6.5;
}
