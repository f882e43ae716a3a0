using System.Globalization;
using SensorLab.Files;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Archive;

/// <summary>The files of a folder that a bundle was unpacked into.</summary>
internal static class FolderContents
{
    /// <summary>Reads them.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>The files; links, pipes and devices are faults and not followed, and no more is read than a bundle holds.</returns>
    /// <exception cref="IOException">The folder or a file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder or a file may not be read.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static ArchiveContents Of(string folder, CancellationToken cancellation)
    {
        var files = new List<ArchiveFile>();
        var faults = new List<BundleFault>();
        int left = ZipFormat.SizeLimitBytes;
        var walk = new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.None, IgnoreInaccessible = false, MaxRecursionDepth = 8 };
        foreach (FileSystemInfo found in new DirectoryInfo(folder).EnumerateFileSystemInfos("*", walk).Take(ZipFormat.FileLimit).OrderBy(f => f.FullName, StringComparer.Ordinal))
        {
            cancellation.ThrowIfCancellationRequested();
            string path = Path.GetRelativePath(folder, found.FullName).Replace('\\', '/');
            if (found.LinkTarget is not null)
            {
                faults.Add(new BundleFault(BundleFaultCode.Link, path, null, "It is a link, which leads out of the bundle."));
            }
            else if (found is FileInfo file)
            {
                if (!PlainFile.IsPlain(file.FullName) || file.Length > left)
                {
                    faults.Add(new BundleFault(BundleFaultCode.TooLarge, path, null, string.Create(CultureInfo.InvariantCulture, $"It is no plain file, or more than is left of the {ZipFormat.SizeLimitBytes} bytes that a bundle holds.")));
                    continue;
                }

                byte[] bytes = PlainFile.ReadAllBytes(file.FullName, left);
                left -= bytes.Length;
                files.Add(new ArchiveFile(path, bytes));
            }
        }

        return new ArchiveContents(files, faults);
    }
}
