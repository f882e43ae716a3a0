using SensorLab.Frames;

namespace SensorLab;

/// <summary>Paths inside a frame set: relative, with forward slashes.</summary>
internal static class FramePath
{
    /// <summary>The role that the folders say: the innermost role's name counts, in any case of letters, in the singular or plural.</summary>
    /// <param name="file">Path inside the frame set.</param>
    /// <returns>The role, null where no folder names one; and for role light the folder below it, the light's name.</returns>
    public static (FrameRole? Role, string? Light) RoleOf(string file)
    {
        string[] parts = file.Split('/');
        for (int i = parts.Length - 2; i >= 0; i--)
        {
            if (RoleWord.Read(parts[i]) is { } role)
            {
                bool hasName = role == FrameRole.Light && i + 1 < parts.Length - 1;
                return (role, hasName ? parts[i + 1] : null);
            }
        }

        return (null, null);
    }

    /// <summary>A path as written by a user, either kind of slash, without detours.</summary>
    /// <param name="written">The path as written.</param>
    /// <returns>The path inside the frame set; null where it leads out of it or names no file.</returns>
    public static string? Normalised(string written)
    {
        string path = written.Trim().Replace('\\', '/');
        bool isRooted = path.StartsWith('/') || (path.Length > 1 && path[1] == ':');
        if (isRooted || path.Contains('\0', StringComparison.Ordinal))
        {
            return null;
        }

        var parts = new List<string>();
        foreach (string part in path.Split('/').Where(p => p is not ("" or ".")))
        {
            if (part != "..")
            {
                parts.Add(part);
            }
            else if (parts.Count == 0)
            {
                return null;
            }
            else
            {
                parts.RemoveAt(parts.Count - 1);
            }
        }

        return parts.Count == 0 ? null : string.Join('/', parts);
    }
}
