using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Shelf.Models;

namespace SensorLab.Cli.Presentation;

/// <summary>The bodies of a model compared, as text in 80 columns.</summary>
internal static class ShelfModelText
{
    private const int MostNamed = 5;

    /// <summary>The lines.</summary>
    public static IEnumerable<string> Lines(ModelSpread spread) =>
    [
        .. WrappedText.Lines($"{spread.Name}: {(spread.Bodies == 1 ? "1 body" : $"{spread.Bodies.ToString(CultureInfo.InvariantCulture)} bodies")}, each by its newest profile{(spread.Mode.Length > 0 ? $"; {spread.Mode}" : string.Empty)}"),
        .. spread.OtherModes > 0 ? WrappedText.Lines($"Left out: {spread.OtherModes.ToString(CultureInfo.InvariantCulture)} of another recording mode.") : [],
        .. spread.Figures.SelectMany(LinesOf),
        string.Empty,
        .. WrappedText.Lines($"The interval of an unmeasured body holds it 19 times in 20, if the bodies here are a fair sample of the model; what single sets differ by is in it. {(spread.Figures.Any(f => f.CanTellWhoStandsOut) ? "Who stands out does so by chance once in 20 such lists." : $"Of fewer than {FigureSpread.FewestToStandOut} bodies none can be said to stand out.")}"),
    ];

    private static IEnumerable<string> LinesOf(FigureSpread figure)
    {
        yield return string.Empty;
        yield return string.Create(CultureInfo.InvariantCulture, $"ISO {figure.Address.Iso}, {ShelfHistoryText.NameOf(figure.Address)}");
        yield return figure.Unmeasured is { } unmeasured
            ? $"  an unmeasured body  {ShelfHistoryText.ValueOf(unmeasured, figure.Address.Name)}"
            : $"  one body: {ShelfHistoryText.ValueOf(Alone(figure.Bodies[0]), figure.Address.Name)}; of another nothing follows";
        if (figure.Bounds > 0)
        {
            yield return $"  left out            {ShelfIntakeText.Count(figure.Bounds, "bound")}";
        }

        foreach (BodyFigure body in figure.StandingOut.Take(MostNamed))
        {
            yield return $"  stands out          {ShelfHistoryText.ValueOf(Alone(body), figure.Address.Name)}  {body.Profile.Body.SerialNumber ?? body.Profile.Body.Name}, {ShelfListText.DateOf(body.Profile)}";
        }

        if (figure.StandingOut.Count > MostNamed)
        {
            yield return $"  and {(figure.StandingOut.Count - MostNamed).ToString(CultureInfo.InvariantCulture)} more";
        }
    }

    public static Figure Alone(BodyFigure body) => Figure.Estimate(
        body.Value, body.StandardUncertainty, body.Value - (Figure.NormalFactor95 * body.StandardUncertainty), body.Value + (Figure.NormalFactor95 * body.StandardUncertainty), null);
}
