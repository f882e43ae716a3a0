using BitMiracle.LibTiff.Classic;

namespace SensorLab.Simulation.Tests.Writing;

/// <summary>LibTiff without its console: it warns of every DNG tag; its errors still fail the calls that meet them.</summary>
internal sealed class QuietLibTiff : TiffErrorHandler
{
    public static Tiff Open(string path)
    {
        Tiff.SetErrorHandler(new QuietLibTiff());
        return Tiff.Open(path, "r");
    }

    public override void WarningHandler(Tiff tif, string method, string format, params object[] args)
    {
    }

    public override void WarningHandlerExt(Tiff tif, object clientData, string method, string format, params object[] args)
    {
    }
}
