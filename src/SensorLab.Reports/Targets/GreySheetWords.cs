namespace SensorLab.Reports.Targets;

/// <summary>What the grey sheet says.</summary>
internal static class GreySheetWords
{
    public const string Heading = "Plain grey sheet";

    public const string SetUpHeading = "Set it up";

    public const string CannotHeading = "What a printed grey cannot give";

    public const string CautionHeading = "Take care";

    public const string Cannot =
        "This grey has no known reflectance, and needs none: the exposure at which your camera's spot meter reads zero on it defines middle grey, " +
        "whatever printer and paper made of it. A plain, evenly lit wall or a diffuser over the lens is often better: no print dots, no gloss, no edge.";

    public static IReadOnlyList<string> SetUp { get; } =
    [
        "Print at 100 % on matt paper; bar and ruler should agree.",
        "Fix the sheet flat, the camera square to it, so near that the grey fills the frame, or at least its middle.",
        "Light it evenly, from both sides or a shaded window. Keep gloss and your own shadow off it.",
        "Set focus as far off as it goes, by hand, until no dot, fibre or edge can be made out.",
        "Set spot metering, and find the exposure that reads zero: the metered frames. Then bracket; then the darks, lens and eyepiece covered.",
    ];

    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Lamps get hot: keep paper and cloth clear, and let them cool before you move them.",
        "Never point the lens, or your eye through it, at the sun.",
        "Keep mains leads dry, whole and out of the way.",
        "Work from the floor; if you must climb, have the ladder held.",
        "House rules and local rules come first, before anything said here.",
    ];

    public static string ScaleCaption { get; } = "This bar is 100 mm long when the print has its true size.";
}
