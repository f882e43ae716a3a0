using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Simulation.Bodies;

/// <summary>Holds a body to its properties' domains.</summary>
internal static class VirtualBodyCheck
{
    private const int LongestName = 200;
    private const int MostIsos = 64;
    private const int MostLooks = 16;
    private const double LongestSeconds = 3600;
    private const string NameDemand = "must not be empty, and have 200 characters at most";

    /// <summary>Returns when the body is sound.</summary>
    /// <exception cref="MalformedFileException">A property is out of its domain; the message names it.</exception>
    public static void Demand(VirtualBody body)
    {
        Require(IsName(body.Maker), "maker", NameDemand);
        Require(IsName(body.Model), "model", NameDemand);
        Require(body.SerialNumber is { Length: <= LongestName }, "serialNumber", "must have 200 characters at most");
        Require(body.Firmware is { Length: <= LongestName }, "firmware", "must have 200 characters at most");
        Require(body.BitDepth is >= 8 and <= 16, "bitDepth", "must be 8 to 16");
        Require(ColourFilterArray.FromName(body.ColourFilterArray) is not null, "colourFilterArray", "must be monochrome, RGGB, BGGR, GRBG, GBRG, or rows, columns and letters as 4x4:RRGGRRGGGGBBGGBB, with red, green and blue and 8x8 at most");
        Require(body.WidthPixels is >= 2 and <= 65_534, "widthPixels", "must be 2 to 65534");
        Require(body.HeightPixels is >= 2 and <= 65_534, "heightPixels", "must be 2 to 65534");
        Require((long)body.WidthPixels * body.HeightPixels <= 500_000_000, "widthPixels", "times heightPixels must not exceed 500 million");
        Require(body.MaskedLeftPixels is >= 0 and <= 1024 && body.MaskedLeftPixels % 2 == 0, "maskedLeftPixels", "must be even, 0 to 1024");
        Require(body.MaskedTopPixels is >= 0 and <= 1024 && body.MaskedTopPixels % 2 == 0, "maskedTopPixels", "must be even, 0 to 1024");
        Require(Math.Abs(body.MaskedBlackShiftDn) <= 1024, "maskedBlackShiftDn", "must be -1024 to 1024");
        Require(body.BlackLevelDn >= 0 && body.BlackLevelDn < body.LargestCodeDn, "blackLevelDn", "must lie between 0 and the largest code");
        Require(body.LowestCodeDn >= 0 && body.LowestCodeDn < body.LargestCodeDn, "lowestCodeDn", "must lie between 0 and the largest code");
        Require(IsCharge(body.FullWellElectron), "fullWellElectron", "must be 0.001 to 1e9");
        Require(body.CompressionPercent is >= 0 and <= 40, "compressionPercent", "must be 0 to 40");
        Require(
            body.PlaceSensitivity is { } places && (places.Count == 0 || places.Count == body.Filters.Rows * body.Filters.Columns) && places.All(own => own is > 0 and <= 2),
            "placeSensitivity",
            "must have one value for each letter of the pattern, above 0 and 2 at most, or none");
        DemandNotNegative(body);
        DemandChannels(body.ChannelSensitivity);
        DemandLook("look", body.Look);
        Require(body.FurtherLooks.Count <= MostLooks && !body.FurtherLooks.Contains(null!), "furtherLooks", "must be 16 looks at most, none of them null");
        for (int i = 0; i < body.FurtherLooks.Count; i++)
        {
            DemandLook(string.Create(CultureInfo.InvariantCulture, $"furtherLooks[{i}]"), body.FurtherLooks[i]);
        }

        Require(body.Looks.Select(l => l.Name).Distinct(StringComparer.Ordinal).Count() == body.Looks.Count(), "furtherLooks", "must have names of their own");
        DemandShutter(body.Shutter);
        DemandShooting(body.Shooting);
        Require(body.IsoSettings is { Count: > 0 and <= MostIsos } && !body.IsoSettings.Contains(null!), "isoSettings", "must have 1 to 64 entries, none of them null");
        for (int i = 0; i < body.IsoSettings.Count; i++)
        {
            DemandIso(body, i);
        }
    }

    private static void DemandNotNegative(VirtualBody body)
    {
        Require(NotNegative(body.PrnuPercent) && body.PrnuPercent < 20, "prnuPercent", "must be 0 to below 20");
        Require(NotNegative(body.PrnuRowPercent) && body.PrnuRowPercent < 20, "prnuRowPercent", "must be 0 to below 20");
        Require(NotNegative(body.PrnuColumnPercent) && body.PrnuColumnPercent < 20, "prnuColumnPercent", "must be 0 to below 20");
        Require(NotNegative(body.DsnuElectron), "dsnuElectron", "must be 0 or more, 1e9 at most");
        Require(NotNegative(body.DsnuRowElectron), "dsnuRowElectron", "must be 0 or more, 1e9 at most");
        Require(NotNegative(body.DsnuColumnElectron), "dsnuColumnElectron", "must be 0 or more, 1e9 at most");
        Require(NotNegative(body.RowNoiseElectron), "rowNoiseElectron", "must be 0 or more, 1e9 at most");
        Require(NotNegative(body.ColumnNoiseElectron), "columnNoiseElectron", "must be 0 or more, 1e9 at most");
        Require(NotNegative(body.DarkCurrentElectronPerSecond), "darkCurrentElectronPerSecond", "must be 0 or more, 1e9 at most");
        Require(body.DeclaredBlackDn is null or (>= 0 and <= 65_535), "declaredBlackDn", "must be 0 to 65535");
        Require(body.DeclaredWhiteDn is null or (> 0 and <= 65_535), "declaredWhiteDn", "must be above 0, 65535 at most");
    }

    private static void DemandChannels(ChannelSensitivity channels)
    {
        foreach (SensorChannel channel in Enum.GetValues<SensorChannel>())
        {
            Require(channels.Of(channel) is > 0 and <= 1, $"channelSensitivity.{channel}", "must be above 0 and at most 1");
        }
    }

    private static void DemandLook(string name, PreviewLook? look)
    {
        Require(look is null || IsName(look.Name), $"{name}.name", NameDemand);
        Require(look is null or { ClipEv: > 0 and <= 20 }, $"{name}.clipEv", "must be above 0, 20 at most");
        Require(look is null or { ShadowEndEv: < 0 and >= -30 }, $"{name}.shadowEndEv", "must be below 0, -30 at least");
        Require(look is null or { MiddleGreyCode: >= 1 and <= 254 }, $"{name}.middleGreyCode", "must be 1 to 254");
    }

    private static void DemandShutter(ShutterSeries shutter)
    {
        Require(shutter.FastestSeconds is >= 1e-6 and < LongestSeconds, "shutter.fastestSeconds", "must be 1e-6 to below 3600");
        Require(shutter.SlowestSeconds is <= LongestSeconds && shutter.SlowestSeconds > shutter.FastestSeconds, "shutter.slowestSeconds", "must be above shutter.fastestSeconds, 3600 at most");
        Require(shutter.StepsPerStop is 1 or 2 or 3, "shutter.stepsPerStop", "must be 1, 2 or 3");
    }

    private static void DemandShooting(ShootingHabits habits)
    {
        Require(habits.FramesPerLevel is >= 1 and <= 100, "shooting.framesPerLevel", "must be 1 to 100");
        Require(habits.DarkFrames is >= 2 and <= 1000 && habits.DarkFrames % 2 == 0, "shooting.darkFrames", "must be even, 2 to 1000");
        Require(habits.MeterReadings is >= 1 and <= 100, "shooting.meterReadings", "must be 1 to 100");
        Require(habits.FramesPerReading is >= 1 and <= 100, "shooting.framesPerReading", "must be 1 to 100");
        Require(NotNegative(habits.MeterStepEv) && habits.MeterStepEv <= 2, "shooting.meterStepEv", "must be 0 to 2");
        Require(habits.LevelsPastSaturation is >= 0 and <= 20, "shooting.levelsPastSaturation", "must be 0 to 20");
        Require(habits.ApertureFNumber > 0 && habits.ApertureFNumber < 1000, "shooting.apertureFNumber", "must be above 0 and below 1000");
    }

    private static void DemandIso(VirtualBody body, int index)
    {
        VirtualIso setting = body.IsoSettings[index];
        string name = $"isoSettings[{index}].";
        Require(setting.Iso is >= 1 and <= 10_000_000, name + "iso", "must be 1 to 10000000");
        Require(body.IsoSettings.Count(other => other.Iso == setting.Iso) == 1, name + "iso", "must not be there twice");
        Require(setting.GainElectronPerDn is >= 1e-6 and <= 1e6, name + "gainElectronPerDn", "must be 1e-6 to 1e6");
        Require(IsCharge(setting.MiddleGreyElectron), name + "middleGreyElectron", "must be 0.001 to 1e9");
        Require(setting.FullWellElectron is null || IsCharge(setting.FullWellElectron.Value), name + "fullWellElectron", "must be 0.001 to 1e9");
        Require(setting.DigitalFactor is >= 1 and <= 64, name + "digitalFactor", "must be 1 to 64");
        bool holdsLines = setting.ReadNoiseElectron * setting.ReadNoiseElectron
            >= (body.RowNoiseElectron * body.RowNoiseElectron) + (body.ColumnNoiseElectron * body.ColumnNoiseElectron);
        Require(NotNegative(setting.ReadNoiseElectron) && holdsLines, name + "readNoiseElectron", "must be 0 or more and hold the row and column noise");
    }

    // Above what any photosite holds, and below what would end sums and draws.
    private static bool IsCharge(double electron) => electron is >= 1e-3 and <= 1e9;

    private static bool IsName(string? name) => !string.IsNullOrWhiteSpace(name) && name.Length <= LongestName;

    private static bool NotNegative(double value) => value is >= 0 and <= 1e9;

    private static void Require(bool holds, string property, string demand)
    {
        if (!holds)
        {
            throw new MalformedFileException($"The body's {property} {demand}.");
        }
    }
}
