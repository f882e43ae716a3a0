using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.AccuracyStudy;

/// <summary>All sets of one body, and what came of every figure.</summary>
internal sealed class BodyStudy
{
    private readonly Dictionary<(StudyFigure Figure, string Channel), FigureTally> _tallies = [];

    public BodyStudy(StudyBody body)
    {
        Body = body;
        var truth = new BodyTruth(body);
        IReadOnlyList<SensorChannel> channels = body.Body.Filters.Channels;
        foreach (SensorChannel channel in channels)
        {
            (double Gain, double NoiseDn, double NoiseElectron)? bounds = CramerRaoBound.Of(body, channel);
            bool pooled = channel is SensorChannel.G1 or SensorChannel.Y;
            foreach (StudyFigure figure in StudyFigure.All.Where(f => f.OfIso is null || pooled))
            {
                double? bound = figure.Name switch
                {
                    StudyFigure.Gain => bounds?.Gain,
                    StudyFigure.ReadNoiseDn => bounds?.NoiseDn,
                    StudyFigure.ReadNoiseElectron => bounds?.NoiseElectron,
                    _ => null,
                };
                _tallies[(figure, channel.ToString())] = new FigureTally(figure.Truth(truth, channel), bound, figure.OneSided);
            }
        }
    }

    public StudyBody Body { get; }

    public int Sets { get; private set; }

    /// <summary>Simulates and adds sets until there are as many as asked.</summary>
    public void Run(int sets, int jobs, CancellationToken cancellation)
    {
        var options = new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation };
        ulong salt = (ulong)StudyBody.All.ToList().IndexOf(Body) * 1_000_000;
        Parallel.For(0, (int)Math.Ceiling(sets * Body.SetsFactor), options, i => Add(StudySet.Characterise(Body, salt + (ulong)i + 1)));
    }

    public IReadOnlyList<FigureTally> TalliesOf(StudyFigure figure) => [.. _tallies.Where(t => t.Key.Figure == figure).Select(t => t.Value)];

    private void Add(IsoProfile profile)
    {
        lock (_tallies)
        {
            Sets++;
            foreach (((StudyFigure figure, string channel), FigureTally tally) in _tallies)
            {
                tally.Add(figure.OfIso is { } ofIso ? ofIso(profile) : figure.Read(profile.Channels.First(c => c.Name == channel)));
            }
        }
    }
}
