using System.Globalization;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Every frame of a rehearsal before the first is exposed, and the camera that will expose them.</summary>
public sealed class RehearsalPlan
{
    private const int MostFrames = 20_000;
    private const long MostPhotosites = 200_000_000_000;

    private static readonly DateTimeOffset FirstFrameTime = new(2026, 4, 18, 9, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan BetweenFrames = TimeSpan.FromSeconds(2);

    private readonly RehearsalOptions _options;
    private readonly List<PlannedFrame> _frames = [];
    private DateTimeOffset _nextTime = FirstFrameTime;

    private RehearsalPlan(RehearsalOptions options, VirtualBody body, IReadOnlyList<int> isos)
    {
        _options = options;
        Camera = new VirtualCamera(body);
        IsoValues = isos;
    }

    /// <summary>The camera.</summary>
    public VirtualCamera Camera { get; }

    /// <summary>The ISO settings in the order in which they are shot.</summary>
    public IReadOnlyList<int> IsoValues { get; }

    /// <summary>The frames in the order in which they are shot.</summary>
    public IReadOnlyList<PlannedFrame> Frames => _frames;

    /// <summary>Plans a rehearsal.</summary>
    /// <param name="options">What it is of.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="RehearsalUsageException">
    /// The body lacks an ISO, an ISO is named twice or is not in the script, the size is impossible, or a flaw is unknown, named
    /// twice, or of impossible size.
    /// </exception>
    /// <exception cref="MalformedFileException">A property of the body is out of its domain.</exception>
    public static RehearsalPlan Of(RehearsalOptions options)
    {
        VirtualBody body = ScriptRehearsal.WithLooks(RehearsalRequest.BodyOf(options), options.Script);
        IReadOnlyList<int> isos = RehearsalRequest.IsoValuesOf(options, body);
        AppliedFlaw[] flaws = RehearsalRequest.FlawsOf(options);
        foreach (AppliedFlaw applied in flaws)
        {
            body = applied.Flaw.ChangeBody(body, isos, applied.Size);
        }

        var plan = new RehearsalPlan(options, body, isos);
        if (options.Script.Count > 0)
        {
            plan.AddScript(options.Script);
            plan.RequireMeasure();
        }
        else
        {
            foreach (int iso in isos)
            {
                plan.AddIso(body.At(iso));
                plan.RequireMeasure();
            }
        }

        foreach (AppliedFlaw applied in flaws)
        {
            applied.Flaw.ChangePlan(new FlawScene(plan, plan._frames, applied, options.Seed));
        }

        return plan;
    }

    /// <summary>Exposes a frame of the plan.</summary>
    /// <param name="frame">The frame.</param>
    /// <returns>Its codes in DN, stored rows × stored columns.</returns>
    public ushort[] Expose(PlannedFrame frame)
    {
        var codes = new ushort[Camera.PixelCount];
        Camera.Expose(frame.Exposure, codes);
        MosaicLayout layout = frame.Raw.Layout;
        bool isWhole = layout.WidthPixels == Camera.Layout.WidthPixels && layout.HeightPixels == Camera.Layout.HeightPixels;
        return isWhole ? codes : Cropped(codes, layout);
    }

    /// <summary>Exposes a frame of the plan and delivers it from memory, as a reader would from its file.</summary>
    /// <param name="frame">The frame.</param>
    /// <exception cref="MalformedFileException">A flaw damages the frame's file.</exception>
    /// <exception cref="UnsupportedFileException">The frame says of itself that noise was reduced in it.</exception>
    public IMosaicReader Open(PlannedFrame frame)
    {
        if (frame.FileEffect is not null)
        {
            throw new MalformedFileException("The file ends in the midst of its mosaic.");
        }

        if (frame.Form.NoiseReductionApplied > 0)
        {
            throw new UnsupportedFileException("Noise was reduced in this frame.", "Take the file as the camera wrote it.", isUnsuitable: true);
        }

        return new SimulatedMosaicReader(frame.Raw, Expose(frame));
    }

    /// <summary>The bytes of a frame's file.</summary>
    /// <param name="frame">The frame.</param>
    /// <returns>The file, as its flaws have it.</returns>
    public byte[] Encode(PlannedFrame frame)
    {
        ushort[] codes = Expose(frame);
        byte[] file = DngWriter.Encode(frame.Raw, codes, frame.Form, Preview(frame, codes));
        return frame.FileEffect?.Invoke(file) ?? file;
    }

    /// <summary>The preview of a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="codes">Its codes, as <see cref="Expose"/> gives them.</param>
    /// <returns>The preview, or null where the file has none.</returns>
    public JpegPreview? Preview(PlannedFrame frame, ReadOnlySpan<ushort> codes) =>
        frame.Look is { } look ? PreviewMaker.Of(Camera.Body, frame.Exposure.Setting, look, codes, frame.Raw.Layout) : null;

    private ushort[] Cropped(ushort[] codes, MosaicLayout layout)
    {
        var cropped = new ushort[layout.WidthPixels * layout.HeightPixels];
        for (int row = 0; row < layout.HeightPixels; row++)
        {
            codes.AsSpan(row * Camera.Layout.WidthPixels, layout.WidthPixels).CopyTo(cropped.AsSpan(row * layout.WidthPixels));
        }

        return cropped;
    }

    // A set that nobody could shoot in a day, nor any disk of one's own hold.
    private void RequireMeasure()
    {
        if (_frames.Count > MostFrames || (long)_frames.Count * Camera.PixelCount > MostPhotosites)
        {
            throw new RehearsalUsageException(string.Create(
                CultureInfo.InvariantCulture,
                $"This would be more than {MostFrames} frames, or than {MostPhotosites / 1_000_000_000} thousand million photosites in all: name fewer ISOs, smaller frames, or a body with a shorter series of exposure times."));
        }
    }

    private void AddIso(VirtualIso setting)
    {
        ShootingHabits habits = Camera.Body.Shooting;
        var bracket = new IsoBracket(Camera.Body, setting, _options.Seed);
        for (int i = 0; i < habits.DarkFrames; i++)
        {
            int index = i < habits.DarkFrames / 2 ? bracket.FirstIndex : bracket.LastIndex;
            Add(setting, FrameRole.Dark, bracket.SecondsAt(index), 0, null, Camera.Body.Look);
        }

        for (int reading = 0; reading < habits.MeterReadings; reading++)
        {
            string? lightStep = reading == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"meter {reading + 1}");
            for (int i = 0; i < habits.FramesPerReading; i++)
            {
                double seconds = bracket.SecondsAt(bracket.ReadingIndex(reading));
                Add(setting, FrameRole.Metered, seconds, bracket.ReadingElectron[reading], lightStep, Camera.Body.Look);
            }
        }

        for (int index = bracket.FirstIndex; index <= bracket.LastIndex; index++)
        {
            for (int i = 0; i < habits.FramesPerLevel; i++)
            {
                Add(setting, FrameRole.Bracket, bracket.SecondsAt(index), bracket.ElectronAt(index), null, Camera.Body.Look);
            }

            foreach (PreviewLook look in Camera.Body.FurtherLooks)
            {
                Add(setting, FrameRole.Bracket, bracket.SecondsAt(index), bracket.ElectronAt(index), null, look);
            }
        }
    }

    private void AddScript(IReadOnlyList<ScriptedShot> script)
    {
        var hands = new ScriptRehearsal(Camera.Body, _options.Seed);
        foreach (ScriptedShot shot in script)
        {
            _nextTime += TimeSpan.FromSeconds(Math.Ceiling(shot.PauseSeconds));
            double light = hands.LightOf(shot);
            PreviewLook? look = Camera.Body.Looks.FirstOrDefault(l => l.Name == shot.Look) ?? Camera.Body.Look;
            for (int i = 0; i < shot.Frames; i++)
            {
                Add(Camera.Body.At(shot.Iso), shot.Role, ScriptRehearsal.SecondsOf(shot), light, shot.LightStep, look);
                var columns = new SortedDictionary<string, string>(StringComparer.Ordinal);
                Say("lightStep", shot.LightStep);
                Say("light", shot.Light);
                Say("look", shot.Look);
                PlannedFrame frame = _frames[^1];
                _frames[^1] = frame with { Columns = columns, Exposure = frame.Exposure with { LampColour = ScriptRehearsal.ColourOf(shot) } };

                void Say(string column, string? word)
                {
                    if (word is not null)
                    {
                        columns[column] = word;
                    }
                }
            }
        }
    }

    private void Add(VirtualIso setting, FrameRole role, double seconds, double lightElectron, string? lightStep, PreviewLook? look)
    {
        int number = _frames.Count + 1;
        var columns = new SortedDictionary<string, string>(StringComparer.Ordinal);
        if (lightStep is not null)
        {
            columns["lightStep"] = lightStep;
        }

        if (look is not null)
        {
            columns["look"] = look.Name;
        }

        _frames.Add(new PlannedFrame
        {
            Look = look,
            Number = number,
            Role = role,
            Form = _options.Form,
            Columns = columns,
            Raw = FrameDescription.Of(Camera, setting, seconds, _nextTime, _options.Form, look),
            Exposure = new Exposure
            {
                Setting = setting,
                LightElectron = lightElectron,
                ExposureSeconds = seconds,
                Seed = _options.Seed,
                FrameNumber = (ulong)number,
                Field = _options.Field,
            },
        });
        _nextTime += BetweenFrames + TimeSpan.FromSeconds(Math.Ceiling(seconds));
    }
}
