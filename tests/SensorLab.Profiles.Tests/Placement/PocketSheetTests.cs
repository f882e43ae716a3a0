using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Profiles.Placement;
using SensorLab.TestData;
using static SensorLab.Profiles.Tests.Placement.RoundProfile;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class PocketSheetTests
{
    [Fact]
    public void Of_Profile_HoldsWhatTheAxisSays()
    {
        PocketIso iso = PocketSheet.Of([Of()]).Bodies[0].Isos[0];
        EvAxis axis = EvAxis.Of(Of(), 400);

        Assert.Equal(2, iso.SpeedEv);
        Assert.Equal([null, "tungsten", "lamp room"], iso.Lights.Select(l => l.Name));
        Assert.Equal(axis.AboveEv, iso.Lights[0].AboveEv);
        Assert.Equal(axis.BrightestTexturedEv(), iso.Lights[0].BrightestTexturedEv);
        Assert.Equal(EvAxis.Of(Of(), 400, "tungsten").AboveEv, iso.Lights[1].AboveEv);
        Assert.Equal(axis.DarkestEv(10), iso.DarkestTexturedEv);
        Assert.Contains(iso.Cautions, c => c.Contains("No preview", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("20418", "LM-2", PocketKinship.OtherBody)]
    [InlineData("20417", "LM-2", PocketKinship.InHandOtherState)]
    [InlineData(null, "LM-2", PocketKinship.Unknown)]
    [InlineData(null, "LM-3", PocketKinship.OtherBody)]
    public void Kinship_SecondProfile_GoesByModelAndSerialNumber(string? serialNumber, string model, PocketKinship kinship)
    {
        SensorProfile other = Of() with { Body = new BodyIdentity("Larkmoor", model, serialNumber, "1.2") };

        PocketSheet sheet = PocketSheet.Of([Of(), other]);

        Assert.Equal([PocketKinship.InHand, kinship], sheet.Bodies.Select(b => b.Kinship));
    }

    // Above 3.2 against 3.6, each ±0.05 with its own meter: +0.4 ±0.0707, in thirds +1/3.
    [Fact]
    public void DialIn_SecondBody_IsTheDifferenceInRoomWithBothMeters()
    {
        PocketBody body = PocketSheet.Of([Of(), Of(WithAbove(Ev(3.6)))]).Bodies[1];

        DialIn dial = Assert.Single(body.DialIn);
        FigureAssert.HasNormalInterval(0.4, TogetherEv * Math.Sqrt(2), dial.CompensationEv);
        Assert.Equal((400, 1 / 3.0), (dial.Iso, dial.NearestThirdEv));
    }

    [Fact]
    public void DialIn_AnyToneOnBothBodies_LiesEquallyFarFromTheClip()
    {
        SensorProfile other = Of(WithAbove(Ev(2.9)));
        double exact = PocketSheet.Of([Of(), other]).Bodies[1].DialIn[0].CompensationEv.Value!.Value;

        foreach (double tone in new[] { -3.0, 0, 2.2 })
        {
            FigureAssert.Is(EvAxis.Of(Of(), 400).HeadroomEv(tone)!.Value!.Value, TogetherEv, EvAxis.Of(other, 400).HeadroomEv(tone + exact));
        }
    }

    [Fact]
    public void DialIn_BoundOrUnsharedIso_IsAbsentWithItsReason()
    {
        PocketBody bound = PocketSheet.Of([Of(), Of(WithAbove(Figure.LowerBound(2)))]).Bodies[1];
        PocketBody unshared = PocketSheet.Of([Of(), Of(Iso(800))]).Bodies[1];

        Assert.Empty(bound.DialIn);
        Assert.Contains("bound", Assert.Single(bound.NoDialIn), StringComparison.Ordinal);
        Assert.Contains("ISO 800 was not measured on the body in hand", Assert.Single(unshared.NoDialIn), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_NoProfile_Throws() => Assert.Throws<ArgumentException>(() => PocketSheet.Of([]));

    [Fact]
    public void Writer_AnyProfile_GivesFiguresInTheProfilesForm()
    {
        foreach (SensorProfile profile in new[] { SampleProfiles.ThreeIsos(), SampleProfiles.Bounds(), SampleProfiles.Monochrome(), SampleProfiles.HostileStrings() })
        {
            using var document = new MemoryStream();
            PocketSheetWriter.Write(PocketSheet.Of([profile]), document);

            JsonNode body = JsonNode.Parse(Encoding.UTF8.GetString(document.ToArray()))!["bodies"]![0]!;
            Assert.Equal("inHand", body["kinship"]!.GetValue<string>());
            Assert.Equal(profile.IsoProfiles.Count, body["isos"]!.AsArray().Count);
        }
    }
}
