using SensorLab.Profiles;
using SensorLab.Simulation;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>What must not move the figures, on simulated sets from pixels to latitude.</summary>
public sealed class CharacterisationPropertyTests
{
    /// <summary>Frames of one light scale to each other by their own means, whose noise makes order matter in the last digits only.</summary>
    private const double OrderShare = 1e-3;

    /// <summary>Double rounding on sums that differ by a constant.</summary>
    private const double Rounding = 1e-6;

    private static readonly VirtualSet Plain = new() { Body = VirtualSet.Fine, BracketFrames = 3, Seed = 11 };

    [Fact]
    public void Figures_FramesReordered_StayTheSame() =>
        AssertMoved(Plain, Plain with { Order = e => [.. e.Reverse()] }, OrderShare);

    [Fact]
    public void Figures_FramesRenamed_AreTheSameBits() =>
        AssertMoved(Plain, Plain with { FilePrefix = "zz" }, 0);

    [Fact]
    public void Figures_AConstantAddedToAllCodes_MovesBlackAlone()
    {
        // Full well below the converter: nothing is cut off by the shift.
        const int shift = 64;
        Dictionary<string, Figure> before = Plain.Characterise().All();
        Dictionary<string, Figure> after = (Plain with { Effects = [(codes, _) => Shift(codes, shift)] }).Characterise().All();
        foreach ((string name, Figure figure) in before)
        {
            double expected = name.EndsWith("black", StringComparison.Ordinal) ? figure.Value!.Value + shift : figure.Value!.Value;
            Assert.Equal(expected, after[name].Value!.Value, Math.Max(Rounding * Math.Abs(expected), 1e-9));
        }
    }

    /// <summary>Codes times two: gain halves, DN figures double, electrons and EV stay (but for rounding noise, whose step is not seen here).</summary>
    [Fact]
    public void Figures_CodesDoubled_ScaleWithThem()
    {
        var body = VirtualSet.Fine with { BlackLevelDn = 300, FullWellElectron = 15_000 };
        VirtualSet set = Plain with { Body = body };
        IsoProfile before = set.Characterise();
        IsoProfile after = (set with { Effects = [(codes, _) => Double(codes)] }).Characterise();
        foreach ((ChannelProfile one, ChannelProfile two) in before.Channels.Zip(after.Channels))
        {
            Assert.Equal(2 * one.BlackLevelDn!.Value!.Value, two.BlackLevelDn!.Value!.Value, 1e-6);
            Assert.Equal(one.GainElectronPerDn!.Value!.Value / 2, two.GainElectronPerDn!.Value!.Value, Rounding);
            Assert.Equal(2 * one.SaturationDn!.Value!.Value, two.SaturationDn!.Value!.Value, 1e-5);
            Assert.Equal(one.SaturationElectron!.Value!.Value, two.SaturationElectron!.Value!.Value, 1e-2);
            Assert.Equal(one.PrnuPercent!.Value!.Value, two.PrnuPercent!.Value!.Value, Rounding);
            Assert.Equal(one.Latitude.AboveEv!.Value!.Value, two.Latitude.AboveEv!.Value!.Value, Rounding);
        }
    }

    /// <summary>
    /// Half of the frames are the old ones, so a figure moves by about 0.7 of its uncertainty (0.5 % of them by more than
    /// the expanded one): the expanded uncertainty is the limit.
    /// </summary>
    [Fact]
    public void Figures_TwiceTheFrames_StayWithinTheirUncertainty()
    {
        const double expanded = 2;
        AssertMoved(Plain with { BracketFrames = 2 }, Plain with { BracketFrames = 4 }, expanded);
    }

    /// <summary>Hot pixels a little above six standard deviations of the dark mean, and far above, in 0.1 % of the frame.</summary>
    [Theory]
    [InlineData(7.0)]
    [InlineData(12.0)]
    [InlineData(200.0)]
    public void Figures_HotPixels_StayWithinTheirUncertainty(double standardDeviations)
    {
        // 1.23 DN read noise with rounding, one frame.
        int above = (int)Math.Ceiling(standardDeviations * 1.26);
        AssertMoved(Plain, Plain with { Effects = [(codes, _) => Heat(codes, above)] }, 1);
    }

    /// <summary>Flicker of 3 % on a field that falls off by a third, with row noise.</summary>
    [Fact]
    public void Gain_FlickerOnAnUnevenFieldWithRowNoise_HoldsOnePercent()
    {
        const double goal = 0.01;
        var body = VirtualSet.Fine with { WidthPixels = 480, HeightPixels = 320, RowNoiseElectron = 1.5 };
        IsoProfile profile = new VirtualSet { Body = body, Field = new FieldShape(0.33), Flicker = [1, 1.03], Seed = 5 }.Characterise();
        Assert.All(profile.Channels, c => Assert.Equal(2.6, c.GainElectronPerDn!.Value!.Value, 2.6 * goal));
    }

    private static void AssertMoved(VirtualSet set, VirtualSet changed, double uncertainties)
    {
        Dictionary<string, Figure> before = set.Characterise().All();
        Dictionary<string, Figure> after = changed.Characterise().All();
        Assert.True(before.Count > 30);
        Assert.Equal(before.Keys.Order(), after.Keys.Order());
        string[] moved = [.. before
            .Where(f => Math.Abs(after[f.Key].Value!.Value - f.Value.Value!.Value) > uncertainties * f.Value.StandardUncertainty!.Value)
            .Select(f => $"{f.Key}: {f.Value.Value} ± {f.Value.StandardUncertainty} to {after[f.Key].Value}")];
        Assert.Empty(moved);
    }

    private static void Shift(Span<ushort> codes, int by)
    {
        foreach (ref ushort code in codes)
        {
            code = (ushort)(code + by);
        }
    }

    private static void Double(Span<ushort> codes)
    {
        foreach (ref ushort code in codes)
        {
            code = (ushort)(code * 2);
        }
    }

    private static void Heat(Span<ushort> codes, int by)
    {
        const int spacing = 997;
        for (int i = 13; i < codes.Length; i += spacing)
        {
            codes[i] = (ushort)Math.Min(16_383, codes[i] + by);
        }
    }
}
