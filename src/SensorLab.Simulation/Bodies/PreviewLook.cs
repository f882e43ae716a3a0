namespace SensorLab.Simulation.Bodies;

/// <summary>The picture setting in force: how a body turns light into the codes of its 8-bit preview.</summary>
/// <remarks>
/// With l the light over that at the clip: code = 255·(l^a − t)/(1 − t), 0 where t is larger, and a such that the grey at
/// which the meter reads exactly zero has <see cref="MiddleGreyCode"/>.
/// </remarks>
public sealed record PreviewLook
{
    /// <summary>Its name.</summary>
    public string Name { get; init; } = "neutral";

    /// <summary>EV above the meter's zero at which the preview clips, above 0.</summary>
    public double ClipEv { get; init; } = 2.7;

    /// <summary>EV at which its shadows close, below 0.</summary>
    public double ShadowEndEv { get; init; } = -6.5;

    /// <summary>Code of middle grey, 1 to 254.</summary>
    public double MiddleGreyCode { get; init; } = 118;

    /// <summary>The code of an EV, not rounded.</summary>
    /// <param name="ev">EV from the meter's zero; −∞ for no light.</param>
    /// <returns>0 to 255.</returns>
    public double CodeAt(double ev) => Code(ev, Exponent());

    /// <summary>The codes of many EV values.</summary>
    internal Func<double, double> Curve()
    {
        double exponent = Exponent();
        return ev => Code(ev, exponent);
    }

    // Middle grey's code falls as the exponent grows; bisection to the last digit.
    private double Exponent()
    {
        double low = 1e-3;
        double high = 4;
        for (int i = 0; i < 80; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Code(0, middle) > MiddleGreyCode ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }

    private double Code(double ev, double exponent)
    {
        double toe = Math.Pow(2, (ShadowEndEv - ClipEv) * exponent);
        double light = Math.Pow(2, (ev - ClipEv) * exponent);
        return 255 * Math.Clamp((light - toe) / (1 - toe), 0, 1);
    }
}
