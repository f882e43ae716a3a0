using System.Runtime.InteropServices;

namespace SensorLab.Cli;

/// <summary>OpenSSL, with which .NET takes hashes on Linux. Where it is missing, the runtime would end the program without a remedy.</summary>
internal static class HashLibrary
{
    /// <summary>The names that .NET looks for, the newest first.</summary>
    private static readonly string[] Names = ["libssl.so.3", "libssl.so.1.1"];

    /// <summary>Requires the library where hashes need it.</summary>
    /// <exception cref="FileNotFoundException">It cannot be loaded.</exception>
    public static void Require() => Require(Names);

    /// <summary>Requires one of some libraries on Linux.</summary>
    /// <param name="names">Their names.</param>
    /// <exception cref="FileNotFoundException">None can be loaded.</exception>
    internal static void Require(IEnumerable<string> names)
    {
        if (OperatingSystem.IsLinux() && !names.Any(name => NativeLibrary.TryLoad(name, out _)))
        {
            throw new FileNotFoundException("OpenSSL's library, libssl, is missing; files are hashed with it. Install it, on Debian 12 for example with apt-get install libssl3.");
        }
    }
}
