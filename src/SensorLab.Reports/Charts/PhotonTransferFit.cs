using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>The fitted noise model of one channel as the profile publishes it.</summary>
/// <param name="InterceptDn2">Temporal variance without signal in DN²: read noise and quantisation.</param>
/// <param name="SlopeDn">Variance a signal, the system gain K in DN/e⁻.</param>
/// <remarks>σ_t² = K²σ_d² + σ_q² + K·S with σ_q² = step²/12 (EMVA 1288 R4, photon transfer).</remarks>
internal readonly record struct PhotonTransferFit(double InterceptDn2, double SlopeDn)
{
    /// <summary>The fit of a channel.</summary>
    /// <param name="channel">The channel's figures.</param>
    /// <param name="codeStepDn">Spacing of codes in DN, 1 or more.</param>
    /// <returns>The fit, or null where gain or read noise is absent or a bound.</returns>
    public static PhotonTransferFit? Of(ChannelProfile channel, double codeStepDn)
    {
        if (channel.GainElectronPerDn?.Value is not { } gain || gain <= 0 || channel.ReadNoiseDn?.Value is not { } readNoiseDn)
        {
            return null;
        }

        return new PhotonTransferFit((readNoiseDn * readNoiseDn) + (codeStepDn * codeStepDn / 12.0), 1 / gain);
    }

    /// <summary>The temporal variance that the fit expects.</summary>
    /// <param name="signalDn">Signal above black in DN.</param>
    /// <returns>In DN².</returns>
    public double VarianceDn2(double signalDn) => InterceptDn2 + (SlopeDn * signalDn);
}
