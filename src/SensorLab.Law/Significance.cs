namespace SensorLab.Law;

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

    /// <summary>Where black is said to drift: one test an ISO, on frames whose noise is known to a few percent. Its uncertainty asks no threshold.</summary>
    public const double BlackDrift = 5;

    /// <summary>
    /// Where neighbours go together: chance brings 3·10⁻⁶ a test. An ISO is put to four for each kind of neighbours, and
    /// their uncertainty hangs on nothing but the number of pairs; below, figures are widened by what may be there.
    /// </summary>
    public const double Neighbours = 4.5;

    /// <summary>Where neighbours are noted to go together: in small frames a filter that matters cannot stand out further.</summary>
    public const double DoubtfulNeighbours = 3;

    /// <summary>Where next neighbours are noted to go apart: rarer than a smoothing, and as many tests again.</summary>
    public const double DoubtfulApart = 3.5;

    /// <summary>Where an excess of noise in all channels is noted: chance makes one at an ISO in 160. Below, gain's uncertainty allows for it.</summary>
    public const double DoubtfulExcess = 2.5;

    /// <summary>Where points that scatter widen what is fitted to them: chance does it to one channel in 4300, which then only says too little.</summary>
    public const double Scattered = 3.5;

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

    /// <summary>What a few values foretell of another, by their own scatter: of a Student distribution of three degrees of freedom one in five hundred lies beyond.</summary>
    public const double Foretold = 10;

    /// <summary>Where a block holds dust or structure: of thousands of clean ones none.</summary>
    public const double StrayBlock = 8;

    /// <summary>Where a pixel of a dark level is a defect: a normal distribution loses less than 2·10⁻⁵ of its variance, while one hot pixel in a thousand would add 4 %.</summary>
    public const double DefectInDark = 5;

    /// <summary>The same in a lit level, where few electrons make a skewed distribution.</summary>
    public const double DefectInLight = 6.5;

    /// <summary>Where lit lines disagree with dark ones, and only the dark ones are believed: some ten levels are compared in two directions, their uncertainties known to a tenth.</summary>
    public const double LinesDisagree = 4;

    /// <summary>Where a level holds more, or less, than pattern, and keeps the uncertainty it has: of some sixty parts of an ISO chance makes one in 300 ISOs.</summary>
    public const double MoreThanPattern = 4;

    /// <summary>Within which two witnesses of a bend agree: chance parts them at one ISO in 370.</summary>
    public const double Witnesses = 3;

    /// <summary>From when on a bend is one: two tests an ISO, whose uncertainties rest on few levels.</summary>
    public const double Bend = 5;

    /// <summary>Where the dimmest level of a plateau lies below the rest: the spread of as few as two levels tells.</summary>
    public const double BelowPlateau = 4;

    /// <summary>Where frames scatter: less is within what the noise of the metered spot has anyway.</summary>
    public const double FrameScatter = 5;

    /// <summary>What a lit frame's black may be off by, in deviations of the dark frames' means.</summary>
    public const double LitBlack = 4;

    /// <summary>Where a line is none of its neighbours', in deviations of the lines' own spread: of a hundred million that differ by chance none lies beyond six, and bands are part of the spread.</summary>
    public const double OddLine = 10;

    /// <summary>The same for each half of a line: dust or an edge stands in one of them.</summary>
    public const double HalfOfOddLine = 5;

    /// <summary>Where a glow is beyond doubt, in deviations of cells smoothed with their neighbours: some thousand cells a map, and patterns are no noise.</summary>
    public const double Glow = 10;

    /// <summary>The same for how far a glow reaches.</summary>
    public const double ReachOfGlow = 3;

    /// <summary>By which the flank of dark codes is taken to be steeper than it looks.</summary>
    public const double Flank = 3;

    /// <summary>Up to which neighbours of the other direction do not go together: one test where the first direction does.</summary>
    public const double OtherDirection = 3;

    /// <summary>At which a block's farthest pixel, defects included, makes it worth a close look: few clean blocks reach it.</summary>
    public const double SuspiciousBlock = 5;

    /// <summary>From when on a gap of two lights counts, in deviations of dark frames' means and of the mean's own noise: one test a level, and a step that is told wrongly costs a set.</summary>
    public const double LightGap = 10;

    /// <summary>Where a parabola stands out of a photon-transfer line: one test a channel, with the sign and shape of what moves gain, where the sum over all points drowns it.</summary>
    public const double Parabola = 4;

    /// <summary>Above a floor at which codes are cut off from which on a level's mean and variance are whole: of a normal distribution cut off there, 3·10⁻⁵ is missing.</summary>
    public const double Whole = 4;
}
