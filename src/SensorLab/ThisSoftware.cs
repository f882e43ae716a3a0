using System.Reflection;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>What this library calls itself in the profiles that it makes.</summary>
internal static class ThisSoftware
{
    /// <summary>Name and version, the build's revision left out so that rebuilding changes no profile.</summary>
    public static SoftwareIdentity Identity { get; } = new(
        "SensorLab",
        typeof(ThisSoftware).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion.Split('+')[0]);
}
