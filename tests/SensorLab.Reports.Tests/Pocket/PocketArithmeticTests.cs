using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Pocket;

/// <summary>The page's own functions against the library's, on the same random questions.</summary>
public sealed class PocketArithmeticTests(PageBrowser browser, PocketSheets sheets) : IClassFixture<PageBrowser>, IClassFixture<PocketSheets>
{
    private const int Questions = 10_000;

    // Binary rounding over a handful of sums of numbers of about ten; both sides do them in double precision.
    private const double RoundingTolerance = 1e-9;
    private const double WidestEv = 12;

    private static readonly string[] States = ["one body", "team", "monochrome", "bounds", "twenty ISOs"];

    [Fact]
    public async Task Page_TenThousandRandomQuestions_AnswersAsTheLibraryDoes()
    {
        Random random = new(6);
        int asked = 0;
        foreach (string state in States)
        {
            SensorProfile[] profiles = PocketSheets.Profiles(state);
            Question[] questions = [.. Enumerable.Range(0, Questions / States.Length).Select(_ => Question.Draw(random, profiles, WidestEv))];
            JsonElement answers = await AskPageAsync(state, questions);
            foreach ((Question question, JsonElement answer) in questions.Zip(answers.EnumerateArray()))
            {
                RequireSame(Answer(profiles, question), answer, $"{state}: {question}");
                asked++;
            }
        }

        Assert.Equal(Questions, asked);
    }

    private async Task<JsonElement> AskPageAsync(string state, Question[] questions)
    {
        await using OpenPage page = await browser.OpenAsync(sheets.PathOf(state), 400);
        string answers = await page.Page.EvaluateAsync<string>(
            """
            questions => {
              const { sheet } = JSON.parse(document.getElementById("sheet").textContent);
              return JSON.stringify(JSON.parse(questions).map(q => {
                const iso = sheet.bodies[q.Body].isos[q.Iso], light = iso.lights[q.Light];
                const ev = r => pocketArithmetic.lightEv(r[0], r[1], iso.speedEv);
                const placed = pocketArithmetic.place(iso, light, sheet.guardEv, {
                  brightEv: ev(q.Bright), darkEv: q.Dark === null ? null : ev(q.Dark), toneEvs: [q.ToneEv], exposureEv: q.ExposureEv, originEv: -iso.speedEv });
                return { placed, appears: (iso.previews ?? []).map(p => pocketArithmetic.warningFromEv(p, q.Percent, iso.greyStandardUncertaintyEv)) };
              }));
            }
            """,
            JsonSerializer.Serialize(questions));
        return JsonDocument.Parse(answers).RootElement;
    }

    private static (PlacedScene? Placed, Figure?[] Appears) Answer(SensorProfile[] profiles, Question question)
    {
        SensorProfile profile = profiles[question.Body];
        IsoProfile iso = profile.IsoProfiles.OrderBy(p => p.Iso).ElementAt(question.Iso);
        double speed = ThirdStopScale.SpeedEv(iso.Iso);
        Figure?[] appears = [.. iso.Previews.Select(p => PlacedLook.WarningFromEv(p, question.Percent, EvAxis.Of(profile, iso.Iso).GreyStandardUncertaintyEv))];
        double bright = LightEv(question.Bright);
        double? dark = question.Dark is null ? null : LightEv(question.Dark);
        return (dark > bright ? null : PlacedScene.Of(profile, new SceneReadings
        {
            Iso = iso.Iso,
            Light = question.Light == 0 ? null : profile.Lights[question.Light - 1].Name,
            BrightEv = bright,
            DarkEv = dark,
            ToneEvs = [question.ToneEv],
            ExposureEv = question.ExposureEv,
            ExposureOriginEv = -speed,
        }), appears);

        // By the library's own reading of the labels that are dialled.
        double LightEv(int[] dialled) => new SpotReading(
            Seconds(ThirdStopScale.Shutters.Single(s => s.Thirds == dialled[0]).Label),
            double.Parse(ThirdStopScale.Apertures.Single(a => a.Thirds == dialled[1]).Label, System.Globalization.CultureInfo.InvariantCulture),
            iso.Iso).LightEv;
    }

    private static double Seconds(string label) => label.Split('/') is [_, var below]
        ? 1 / double.Parse(below, System.Globalization.CultureInfo.InvariantCulture)
        : double.Parse(label, System.Globalization.CultureInfo.InvariantCulture);

    private static void RequireSame((PlacedScene? Placed, Figure?[] Appears) expected, JsonElement answer, string question)
    {
        JsonElement placed = answer.GetProperty("placed");
        foreach ((Figure? figure, JsonElement given) in expected.Appears.Zip(answer.GetProperty("appears").EnumerateArray()))
        {
            RequireFigure(figure, given, question);
        }

        if (expected.Placed is not { } scene)
        {
            Assert.True(placed.GetProperty("upsideDown").GetBoolean(), question);
            return;
        }

        RequireNumber(scene.MostLightEv, placed.GetProperty("mostLightEv"), question);
        RequireNumber(scene.LeastLightEv, placed.GetProperty("leastLightEv"), question);
        RequireNumber(scene.AdvisedEv, placed.GetProperty("advisedEv"), question);
        RequireNumber(scene.ExposureEv, placed.GetProperty("exposureEv"), question);
        RequireTruth(scene.Fits, placed.GetProperty("fits"), question);
        JsonElement room = placed.GetProperty("roomEv");
        foreach ((string name, double? value) in new[] { ("value", scene.RoomEv?.Value), ("atLeast", scene.RoomEv?.AtLeast), ("atMost", scene.RoomEv?.AtMost) })
        {
            RequireNumber(value, Member(room, name), question);
        }

        RequireTone(scene.Bright, placed.GetProperty("bright"), question);
        RequireTone(scene.Dark, placed.GetProperty("dark"), question);
        RequireTone(scene.Tones.SingleOrDefault(), placed.GetProperty("tones").EnumerateArray().SingleOrDefault(), question);
    }

    private static void RequireTone(PlacedTone? tone, JsonElement given, string question)
    {
        if (tone is null)
        {
            Assert.True(given.ValueKind is JsonValueKind.Null or JsonValueKind.Undefined, question);
            return;
        }

        RequireNumber(tone.PlacedEv, given.GetProperty("placedEv"), question);
        RequireFigure(tone.HeadroomEv, given.GetProperty("headroomEv"), question);
        RequireFigure(tone.ShadowRoomEv, given.GetProperty("shadowRoomEv"), question);
        Assert.True(tone.Holds.ToString().Equals(given.GetProperty("holds").GetString(), StringComparison.OrdinalIgnoreCase), $"{question}: {tone.Holds} is not {given.GetProperty("holds")}.");
        JsonElement[] previews = [.. given.GetProperty("previews").EnumerateArray()];
        Assert.Equal(tone.Previews.Count, previews.Length);
        foreach ((PreviewPretence preview, JsonElement shown) in tone.Previews.Zip(previews))
        {
            RequireNumber(preview.ToneCode, shown.GetProperty("toneCode"), question);
            RequireTruth(preview.ShowsClipped, shown.GetProperty("showsClipped"), question);
            RequireTruth(preview.ShowsBlack, shown.GetProperty("showsBlack"), question);
        }
    }

    private static void RequireFigure(Figure? figure, JsonElement given, string question)
    {
        (string Name, double? Value)[] parts =
        [
            ("value", figure?.Value), ("standardUncertainty", figure?.StandardUncertainty), ("lower95", figure?.Lower95),
            ("upper95", figure?.Upper95), ("atLeast", figure?.AtLeast), ("atMost", figure?.AtMost),
        ];
        foreach ((string name, double? value) in parts)
        {
            RequireNumber(value, Member(given, name), $"{question}, {name}");
        }
    }

    private static JsonElement Member(JsonElement held, string name) =>
        held.ValueKind == JsonValueKind.Object && held.TryGetProperty(name, out JsonElement member) ? member : default;

    private static void RequireNumber(double? expected, JsonElement given, string question)
    {
        double? number = given.ValueKind == JsonValueKind.Number ? given.GetDouble() : null;
        Assert.True(
            expected is { } value ? number is { } shown && Math.Abs(shown - value) <= RoundingTolerance : number is null,
            $"{question}: {number} is not {expected}.");
    }

    private static void RequireTruth(bool? expected, JsonElement given, string question) => Assert.True(
        given.ValueKind == (expected switch { true => JsonValueKind.True, false => JsonValueKind.False, _ => JsonValueKind.Null }),
        $"{question}: {given} is not {expected}.");

    /// <summary>Readings as indices and thirds, so that page and library each make their own EV of them.</summary>
    private sealed record Question(int Body, int Iso, int Light, int[] Bright, int[]? Dark, double ToneEv, double? ExposureEv, double Percent)
    {
        public static Question Draw(Random random, SensorProfile[] profiles, double widestEv)
        {
            int body = random.Next(profiles.Length);
            return new Question(
                body,
                random.Next(profiles[body].IsoProfiles.Count),
                random.Next(profiles[body].Lights.Count + 1),
                Dialled(),
                random.Next(3) == 0 ? null : Dialled(),
                (random.NextDouble() - 0.5) * widestEv,
                random.Next(2) == 0 ? null : (random.NextDouble() - 0.5) * widestEv,
                50 + (random.NextDouble() * 50));

            int[] Dialled() => [ThirdStopScale.Shutters[random.Next(ThirdStopScale.Shutters.Count)].Thirds, ThirdStopScale.Apertures[random.Next(ThirdStopScale.Apertures.Count)].Thirds];
        }

        public override string ToString() => JsonSerializer.Serialize(this);
    }
}
