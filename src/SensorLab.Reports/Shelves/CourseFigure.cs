namespace SensorLab.Reports.Shelves;

/// <summary>One kind of figure on a page of the shelf.</summary>
/// <param name="Title">Its name in words, as <c>read noise (e⁻), G1</c>.</param>
/// <param name="IsDown">Whether it counts stops below grey, and is shown with a minus.</param>
/// <param name="IsEv">Whether it counts stops.</param>
/// <param name="Lines">One an ISO, rising.</param>
public sealed record CourseFigure(string Title, bool IsDown, bool IsEv, IReadOnlyList<CourseLine> Lines)
{
    /// <summary>Whether it counts stops above grey, and is shown with its sign.</summary>
    public bool IsUp { get; init; }

    /// <summary>Whether there are too few bodies to tell whether one stands out.</summary>
    public bool IsOfFew { get; init; }
}
