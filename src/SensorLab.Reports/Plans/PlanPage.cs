using System.Globalization;
using System.Security.Cryptography;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Pages;

namespace SensorLab.Reports.Plans;

/// <summary>The shot list as a page for the phone: ticks off, works without a network, keeps its ticks on the phone.</summary>
internal sealed class PlanPage
{
    private const int KeyBytes = 8;

    private readonly HtmlWriter _html;
    private readonly ShotPlan _plan;

    private PlanPage(HtmlWriter html, ShotPlan plan) => (_html, _plan) = (html, plan);

    /// <summary>The page.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(ShotPlan plan) =>
        PageShell.Document(PlanWords.Title(plan), html => new PlanPage(html, plan).Write(), ["plan.css"], "plan.js");

    // Ticks belong to this list: another plan in the same place starts afresh.
    private static string KeyOf(ShotPlan plan) =>
        Convert.ToHexStringLower(SHA256.HashData(ShotPlanDocument.Write(plan)).AsSpan(0, KeyBytes));

    private void Write()
    {
        WriteBar();
        using IDisposable main = _html.In("main", ("data-plan", KeyOf(_plan)));
        using (_html.In("header"))
        {
            _html.Leaf("h1", PlanWords.Title(_plan));
            _html.Leaf("p", _plan.Purpose);
            _html.Leaf("p", PlanWords.Summary(_plan));
            _html.Leaf("p", PlanWords.Conditions(_plan), ("class", "quiet"));
            _html.Leaf("p", string.Empty, ("class", "warning"), ("id", "no-ticks"), ("hidden", string.Empty), ("role", "status"));
        }

        WriteSets();
        WriteNotices();
        WriteSection("Take care", () => WriteItems(_plan.Cautions));
        WriteSection("Before the first frame", WritePreparations);
        foreach (IGrouping<string, PlanStep> group in Groups())
        {
            WriteSection(group.Key, () => WriteSteps(group));
        }

        WriteSection("What it should give", WritePrediction);
        WriteSection("What the plan assumes", () => WriteItems(_plan.Assumes));
        WriteReset();
    }

    // Steps of one heading stand together in the shooting order already.
    private IEnumerable<IGrouping<string, PlanStep>> Groups() => _plan.Steps.GroupBy(PlanWords.Group);

    private void WriteBar()
    {
        using IDisposable bar = _html.In("nav", ("aria-label", "Progress"));
        using (_html.In("p"))
        {
            _html.Leaf("output", string.Create(CultureInfo.InvariantCulture, $"0 of {_plan.Summary.Frames} frames"), ("id", "done"), ("data-frames", _plan.Summary.Frames.ToString(CultureInfo.InvariantCulture)));
        }

        _html.Leaf("progress", string.Empty, ("id", "progress"), ("max", _plan.Summary.Frames.ToString(CultureInfo.InvariantCulture)), ("value", "0"), ("aria-label", "Frames shot"));
        _html.Leaf("button", "Next", ("type", "button"), ("id", "next"));
    }

    private void WriteSets()
    {
        if (_plan.Sets.Count < 2)
        {
            return;
        }

        using IDisposable fields = _html.In("fieldset", ("class", "sets"));
        _html.Leaf("legend", string.Create(CultureInfo.InvariantCulture, $"This list is shot {_plan.Sets.Count} times. Ticks are kept for each:"));
        foreach ((int index, ProtocolSet set) in _plan.Sets.Index())
        {
            using IDisposable label = _html.In("label");
            _html.Void("input", ("type", "radio"), ("name", "set"), ("value", index.ToString(CultureInfo.InvariantCulture)), ("checked", index == 0 ? string.Empty : null));
            using IDisposable words = _html.In("span");
            _html.Leaf("b", set.Name);
            _html.Text(": " + set.When);
        }
    }

    private void WriteNotices()
    {
        if (_plan.Notices.Count > 0)
        {
            WriteSection("Know before you start", () =>
            {
                foreach (PlanNotice notice in _plan.Notices)
                {
                    using IDisposable words = _html.In("p", ("class", "notice"));
                    _html.Text(notice.Message + " ");
                    _html.Leaf("b", "Way out: ");
                    _html.Text(notice.Remedy);
                }
            });
        }
    }

    private void WriteSection(string heading, Action body)
    {
        using IDisposable section = _html.In("section");
        _html.Break();
        _html.Leaf("h2", heading);
        body();
    }

    private void WriteItems(IReadOnlyList<string> items)
    {
        using IDisposable list = _html.In("ul");
        foreach (string item in items)
        {
            _html.Break();
            _html.Leaf("li", item);
        }
    }

    private void WritePreparations()
    {
        using IDisposable list = _html.In("ul", ("class", "steps"));
        foreach ((int index, string item) in _plan.Preparations.Index())
        {
            using IDisposable step = _html.In("li");
            using IDisposable label = _html.In("label");
            WriteBox("b" + (index + 1).ToString(CultureInfo.InvariantCulture), 0);
            _html.Leaf("span", item, ("class", "what"));
        }
    }

    private void WriteSteps(IEnumerable<PlanStep> steps)
    {
        using IDisposable list = _html.In("ul", ("class", "steps"));
        foreach (PlanStep step in steps)
        {
            _html.Break();
            using IDisposable item = _html.In("li");
            foreach (string action in step.Actions)
            {
                _html.Leaf("p", action, ("class", "action"));
            }

            using IDisposable label = _html.In("label");
            WriteBox("s" + step.Number.ToString(CultureInfo.InvariantCulture), step.Frames);
            using IDisposable what = _html.In("span", ("class", "what"));
            _html.Leaf("b", PlanWords.Exposure(step), ("class", "time"));
            _html.Leaf("span", string.Create(CultureInfo.InvariantCulture, $"× {step.Frames}"), ("class", "count"));
            string iso = step.Role is RoleName.Dark or RoleName.Light ? string.Create(CultureInfo.InvariantCulture, $"ISO {step.Iso}, ") : string.Empty;
            string column = PlanWords.Column(step) is { Length: > 0 } words ? " · " + words : string.Empty;
            _html.Leaf("small", iso + PlanWords.Kind(step) + column);
        }
    }

    private void WriteBox(string id, int frames) =>
        _html.Void("input", ("type", "checkbox"), ("id", id), ("data-frames", frames.ToString(CultureInfo.InvariantCulture)), ("autocomplete", "off"));

    private void WritePrediction()
    {
        if (_plan.Prediction.Count == 0)
        {
            _html.Leaf("p", PlanWords.PredictionCaption(_plan));
        }
        else
        {
            HtmlTable.Write(_html, PlanTables.Prediction(_plan));
        }
    }

    private void WriteReset()
    {
        using IDisposable words = _html.In("p", ("class", "reset"));
        _html.Leaf("button", "Untick all", ("type", "button"), ("id", "reset"));
    }
}
