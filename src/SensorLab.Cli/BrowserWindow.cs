using System.ComponentModel;
using System.Diagnostics;

namespace SensorLab.Cli;

/// <summary>The user's own browser.</summary>
internal static class BrowserWindow
{
    /// <summary>Opens an address in it.</summary>
    /// <param name="address">The address, ours.</param>
    /// <returns>Whether there was something to open it with.</returns>
    public static bool Open(string address)
    {
        try
        {
            if (OperatingSystem.IsWindows())
            {
                using Process? shell = Process.Start(new ProcessStartInfo(address) { UseShellExecute = true });
                return true;
            }

            bool hasScreen = OperatingSystem.IsMacOS() || new[] { "DISPLAY", "WAYLAND_DISPLAY" }.Any(name => !string.IsNullOrEmpty(Environment.GetEnvironmentVariable(name)));
            if (!hasScreen)
            {
                return false;
            }

            // What the browser has to say is not ours to print.
            using Process? opener = Process.Start(new ProcessStartInfo(OperatingSystem.IsMacOS() ? "open" : "xdg-open", [address]) { RedirectStandardOutput = true, RedirectStandardError = true });
            return opener is not null;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }
}
