using static SensorLab.FlawMatrix.Foreign.ForeignScene;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>Sensors whose photosites are not all alike by design, or whose readout is another for bright light.</summary>
internal static class ForeignReadouts
{
    private const int FocusRows = 12;
    private const int FocusColumns = 8;

    /// <summary>Share of saturation from which the second readout is used.</summary>
    private const double SecondFrom = 0.2;

    public static IReadOnlyList<ForeignFlaw> All { get; } =
    [
        new("focus photosites", "every eighth photosite of every twelfth row is masked to a part (share of the light lost)", ["target-textured", "pixels-hot"], [0.3, 0.6], scene => frame => WithEffect(frame, (codes, layout) =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            for (int y = layout.ActiveArea.Y + 5; y < layout.ActiveArea.Bottom; y += FocusRows)
            {
                for (int x = layout.ActiveArea.X + 2; x < layout.ActiveArea.Right; x += FocusColumns)
                {
                    ref ushort code = ref codes[(y * layout.WidthPixels) + x];
                    code = (ushort)Math.Clamp(Math.Floor(code - (scene.Size * Math.Max(0, code - black)) + own.NextDouble()), 0, scene.Largest);
                }
            }
        })),
        new("two readouts", "a fifth of saturation and brighter is read with more noise (DN, on top)", ["model-rejected"], [1, 5, 20], scene => frame =>
        {
            Random own = scene.Own(frame);
            double black = scene.Plan.Camera.Body.BlackLevelDn;
            double from = black + (SecondFrom * scene.Plan.Camera.Body.FullWellElectron / frame.Exposure.Setting.GainElectronPerDn);
            return scene.WithCodes(frame, (_, _, code) => code >= scene.Largest || code < from ? code : Math.Floor(code + (scene.Size * Normal(own)) + own.NextDouble()));
        }),
    ];
}
