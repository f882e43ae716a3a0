using System.Text;

namespace SensorLab.Profiles.Tests;

/// <summary>Profiles as text and back.</summary>
internal static class ProfileText
{
    public static string Of(SensorProfile profile)
    {
        using MemoryStream stream = new();
        SensorProfileWriter.Write(profile, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    public static SensorProfile Read(string text)
    {
        using MemoryStream stream = new(Encoding.UTF8.GetBytes(text));
        return SensorProfileReader.Read(stream);
    }
}
