using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Draws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Flaws;

/// <summary>What a flaw works on: the planned frames, its size, and random numbers of its own.</summary>
internal sealed class FlawScene
{
    private readonly List<PlannedFrame> _frames;
    private RandomStream _stream;

    /// <summary>Sets the scene for one flaw.</summary>
    public FlawScene(RehearsalPlan plan, List<PlannedFrame> frames, AppliedFlaw applied, ulong seed)
    {
        _frames = frames;
        Plan = plan;
        Size = applied.Size;
        Seed = seed;
        foreach (char letter in applied.Flaw.Code)
        {
            Seed = RandomStream.Mix(Seed, letter);
        }

        _stream = new RandomStream(Seed, 0);
    }

    /// <summary>The plan: its camera and ISO settings.</summary>
    public RehearsalPlan Plan { get; }

    /// <summary>The size.</summary>
    public double Size { get; }

    /// <summary>The seed of this flaw in this rehearsal.</summary>
    public ulong Seed { get; }

    /// <summary>The body.</summary>
    public VirtualBody Body => Plan.Camera.Body;

    /// <summary>A number from 0 to 1.</summary>
    public double NextUnit() => _stream.NextUnit();

    /// <summary>A draw of the standard normal.</summary>
    public double NextNormal() => Normal.Next(ref _stream);

    /// <summary>Changes every frame that a condition picks.</summary>
    public void Change(Func<PlannedFrame, bool> picks, Func<PlannedFrame, PlannedFrame> change)
    {
        for (int i = 0; i < _frames.Count; i++)
        {
            if (picks(_frames[i]))
            {
                _frames[i] = change(_frames[i]);
            }
        }
    }

    /// <summary>Takes out every frame that a condition picks.</summary>
    public void Remove(Func<PlannedFrame, bool> picks) => _frames.RemoveAll(frame => picks(frame));

    /// <summary>Adds a frame after its model: the same exposure with other noise, a moment later.</summary>
    public void AddLike(PlannedFrame model, Func<PlannedFrame, PlannedFrame> change)
    {
        int number = _frames.Max(frame => frame.Number) + 1;
        PlannedFrame added = model with { Number = number, Exposure = model.Exposure with { FrameNumber = (ulong)number } };
        PlannedFrame timed = added.WithMetadata(said => said with { CaptureTime = said.CaptureTime?.AddSeconds(1) });
        _frames.Insert(_frames.IndexOf(model) + 1, change(timed));
    }

    /// <summary>The frames of an ISO in the order in which they are shot.</summary>
    public PlannedFrame[] FramesOf(int iso) => [.. _frames.Where(frame => frame.Exposure.Setting.Iso == iso)];

    /// <summary>The levels of an ISO's bracket, the darkest first.</summary>
    public PlannedFrame[][] LevelsOf(int iso) =>
    [
        .. FramesOf(iso)
            .Where(frame => frame.Role == FrameRole.Bracket)
            .GroupBy(frame => frame.Exposure.ExposureSeconds)
            .OrderBy(level => level.Key)
            .Select(level => level.ToArray()),
    ];

    /// <summary>Changes the frames of every second level of every ISO's bracket.</summary>
    public void ChangeEverySecondLevel(Func<PlannedFrame, PlannedFrame> change)
    {
        foreach (int iso in Plan.IsoValues)
        {
            PlannedFrame[] picked = [.. LevelsOf(iso).Where((_, i) => i % 2 == 1).SelectMany(level => level)];
            Change(picked.Contains, change);
        }
    }

    /// <summary>Bracket levels of the first ISO in good light, no two the same: where photon noise rules and nothing clips.</summary>
    public PlannedFrame[][] WellLitLevels(int count)
    {
        int iso = Plan.IsoValues[0];
        var law = new SensorLaw(Body, Body.At(iso));
        double least = law.ElectronAtSnr(10) ?? 0;
        double most = 0.6 * law.SaturatingElectron;
        List<PlannedFrame[]> levels = [.. LevelsOf(iso).Where(level => level[0].Exposure.LightElectron > least && level[0].Exposure.LightElectron < most)];
        var picked = new List<PlannedFrame[]>();
        while (picked.Count < count && levels.Count > 0)
        {
            int at = (int)(NextUnit() * levels.Count);
            picked.Add(levels[at]);
            levels.RemoveAt(at);
        }

        return [.. picked];
    }
}
