using System.Reflection;
using System.Text;
using SensorLab.Reports.Pages;

namespace SensorLab.Bench.Api;

/// <summary>The page's own files, from inside the program.</summary>
internal static class PageFiles
{
    private const string Prefix = "SensorLab.Bench.Pages.";

    private static readonly Dictionary<string, (string Type, byte[] Bytes)> Files = Read();

    /// <summary>A file of the page.</summary>
    /// <param name="name">Its name, as bench.js.</param>
    /// <returns>Null where there is none of that name.</returns>
    public static (string Type, byte[] Bytes)? Find(string name) => Files.TryGetValue(name, out (string Type, byte[] Bytes) file) ? file : null;

    private static Dictionary<string, (string Type, byte[] Bytes)> Read()
    {
        Assembly assembly = typeof(PageFiles).Assembly;
        var files = assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).ToDictionary(n => n[Prefix.Length..], n =>
        {
            using Stream stream = assembly.GetManifestResourceStream(n)!;
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            return (TypeOf(n), bytes.ToArray());
        });
        files["page.css"] = (TypeOf(".css"), Encoding.UTF8.GetBytes(PageStyle.Common));
        return files;
    }

    /// <summary>The media type of a name.</summary>
    /// <param name="name">A file's name.</param>
    public static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".html" => "text/html; charset=utf-8",
        ".css" => "text/css; charset=utf-8",
        ".js" => "text/javascript; charset=utf-8",
        ".svg" => "image/svg+xml",
        ".png" => "image/png",
        ".pdf" => "application/pdf",
        ".json" => "application/json",
        ".csv" => "text/csv; charset=utf-8",
        ".zip" => "application/zip",
        _ => "application/octet-stream",
    };
}
