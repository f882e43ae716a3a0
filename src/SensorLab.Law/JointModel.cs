using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Law;

/// <summary>The channels of an ISO as one vector of parameters with one covariance: what channels share, their means share too.</summary>
/// <remarks>Channel after channel, each with all of <see cref="NoiseParameter"/>; the bend of the response is the same in all of them.</remarks>
public sealed class JointModel
{
    private readonly double[] _values;
    private readonly IReadOnlyList<CovariancePart> _parts;

    /// <summary>A model of parameters that are known together.</summary>
    /// <param name="values">Values, channel after channel; NaN for what was not measured.</param>
    /// <param name="parts">Their covariance in parts.</param>
    /// <exception cref="ArgumentException">The values are not whole channels.</exception>
    public JointModel(IReadOnlyList<double> values, IReadOnlyList<CovariancePart> parts)
    {
        if (values.Count % NoiseModel.Size != 0)
        {
            throw new ArgumentException("A joint model holds whole channels.", nameof(values));
        }

        _values = [.. values];
        _parts = parts;
    }

    /// <summary>Number of channels.</summary>
    public int Channels => _values.Length / NoiseModel.Size;

    /// <summary>The place of a channel's parameter in the vector.</summary>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="parameter">The parameter.</param>
    public static int PlaceOf(int channel, NoiseParameter parameter) => (channel * NoiseModel.Size) + (int)parameter;

    /// <summary>The model of one channel.</summary>
    /// <param name="channel">Index of the channel.</param>
    public NoiseModel Channel(int channel) => Pooled([channel]);

    /// <summary>The model of channels pooled: the mean of their parameters.</summary>
    /// <param name="channels">Indices of one channel or more.</param>
    public NoiseModel Pooled(IReadOnlyList<int> channels)
    {
        double[] means = [.. Enumerable.Range(0, NoiseModel.Size).Select(p => channels.Average(c => _values[(c * NoiseModel.Size) + p]))];
        return new NoiseModel(means, [.. _parts.Select(part => part with { Covariance = Mean(part.Covariance, channels) }).Where(part => part.Covariance.Enumerate().Any(c => c != 0))]);
    }

    /// <summary>The same model with a parameter of every channel, independent of what it holds already.</summary>
    /// <param name="parameter">The parameter.</param>
    /// <param name="own">Its estimate in each channel; null where there is none.</param>
    /// <param name="shared">Parts that the channels share: channels × channels.</param>
    public JointModel With(NoiseParameter parameter, IReadOnlyList<Estimate?> own, IReadOnlyList<CovariancePart> shared)
    {
        double[] values = [.. _values];
        int[] places = [.. Enumerable.Range(0, Channels).Select(c => PlaceOf(c, parameter))];
        List<CovariancePart> parts = [.. _parts];
        for (int c = 0; c < Channels; c++)
        {
            values[places[c]] = own[c]?.Value ?? double.NaN;
            if (own[c] is { StandardUncertainty: > 0 } estimate)
            {
                Matrix<double> single = Matrix<double>.Build.Dense(values.Length, values.Length);
                single[places[c], places[c]] = estimate.Variance;
                parts.Add(new CovariancePart(single, estimate.DegreesOfFreedom));
            }
        }

        foreach (CovariancePart part in shared)
        {
            Matrix<double> common = Matrix<double>.Build.Dense(values.Length, values.Length);
            for (int i = 0; i < places.Length; i++)
            {
                for (int j = 0; j < places.Length; j++)
                {
                    common[places[i], places[j]] = part.Covariance[i, j];
                }
            }

            parts.Add(new CovariancePart(common, part.DegreesOfFreedom));
        }

        return new JointModel(values, parts);
    }

    /// <summary>The same model with a doubt that moves a parameter of all channels by the same share of itself.</summary>
    /// <param name="parameter">The parameter; channels in which it was not measured stay as they are.</param>
    /// <param name="share">Standard deviation of the share, 0 or more.</param>
    public JointModel WithDoubt(NoiseParameter parameter, double share)
    {
        var shift = Vector<double>.Build.Dense(_values.Length);
        foreach (int place in Enumerable.Range(0, Channels).Select(c => PlaceOf(c, parameter)).Where(p => double.IsFinite(_values[p])))
        {
            shift[place] = share * _values[place];
        }

        return new JointModel(_values, [.. _parts, new CovariancePart(shift.OuterProduct(shift), double.PositiveInfinity)]);
    }

    /// <summary>The covariance of channels' means; other channels' own errors leave nothing of theirs.</summary>
    private static Matrix<double> Mean(Matrix<double> covariance, IReadOnlyList<int> channels) =>
        Matrix<double>.Build.Dense(NoiseModel.Size, NoiseModel.Size, (i, j) =>
        {
            double sum = 0;
            foreach (int first in channels)
            {
                foreach (int second in channels)
                {
                    sum += covariance[(first * NoiseModel.Size) + i, (second * NoiseModel.Size) + j];
                }
            }

            return sum / (channels.Count * channels.Count);
        });
}
