using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Commands;
using SensorLab.Files;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli;

/// <summary>What stays the same from run to run: a word a name, in one file of the user's.</summary>
/// <remarks>An option on the command line goes before the setting; a command that takes one from here says so.</remarks>
internal sealed class Settings
{
    private const int MostBytes = 100_000;

    private const int LongestPath = 4096;

    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, NewLine = "\n" };

    private readonly JsonObject _words;

    private Settings(string path, JsonObject words) => (Path, _words) = (path, words);

    /// <summary>The settings that there are.</summary>
    public static IReadOnlyList<SettingName> Names { get; } =
    [
        new("meter-step", "--meter-step", "the step that your camera's meter shows, such as 1/3", "a step above zero, such as 1/3, of 10 at most", word => CharacterisationWords.MeterStep(word) is not null),
        new("mains", "plan --mains", "the frequency of your mains, 50 or 60", "50 or 60", word => PlanArguments.Mains(word) is not null),
        new("shutter", "plan --shutter", "your body's exposure times, such as 1/8000..30", "a range of exposure times such as 1/8000..30", word => PlanArguments.Range(word) is not null),
        new("delivery", "--delivery", "the size at which you deliver, such as 2400x1600", "a size such as 2400x1600", word => DeliveryOption.SizeOf(word) is not null),
        new("key", "publish --key", "your private key, which signs what you publish", "a file's path", IsPath),
        new("shelf", "--shelf", "the folder in which profiles are kept", "a folder's path", IsPath),
    ];

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>The meter's step in EV; null where it is not set.</summary>
    public double? MeterStepEv => this["meter-step"] is { } word ? CharacterisationWords.MeterStep(word) : null;

    /// <summary>The mains; null where they are not set.</summary>
    public int? Mains => this["mains"] is { } word ? PlanArguments.Mains(word) : null;

    /// <summary>The body's exposure times; null where they are not set.</summary>
    public ShutterRange? Shutter => this["shutter"] is { } word ? PlanArguments.Range(word) : null;

    /// <summary>The size of delivered pictures; null where it is not set.</summary>
    public Delivery? Delivery => this["delivery"] is { } word && DeliveryOption.SizeOf(word) is { } size ? new Delivery(size.Width, size.Height) : null;

    /// <summary>A setting's word; null where it is not set.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    public string? this[string name] => (string?)_words[name];

    /// <summary>Where the settings lie for this user.</summary>
    /// <returns>Empty where the system names no folder for it.</returns>
    public static string PathOfUser()
    {
        string folder = Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return folder.Length == 0 ? string.Empty : System.IO.Path.Combine(folder, "sensorlab", "settings.json");
    }

    /// <summary>Where a command keeps what it has of this user's.</summary>
    /// <param name="name">The folder's name.</param>
    /// <returns>Empty where the system names no folder for it.</returns>
    public static string DataFolderOfUser(string name)
    {
        string folder = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return folder.Length == 0 ? string.Empty : System.IO.Path.Combine(folder, "sensorlab", name);
    }

    /// <summary>Reads the settings.</summary>
    /// <param name="path">The file; missing or empty for none.</param>
    /// <exception cref="MalformedFileException">It is not what settings look like.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static Settings Read(string path)
    {
        if (path.Length == 0 || !File.Exists(path))
        {
            return new Settings(path, []);
        }

        try
        {
            JsonObject words = JsonNode.Parse(PlainFile.ReadAllBytes(path, MostBytes)) as JsonObject ?? throw new JsonException();
            var sound = new JsonObject();
            foreach ((string name, JsonNode? value) in words)
            {
                SettingName? known = Names.FirstOrDefault(n => n.Name == name);
                if (known is not null && (value?.GetValueKind() != JsonValueKind.String || !known.IsSound((string)value!)))
                {
                    throw Fault(path, $"\"{name}\" is not {known.Expected}");
                }

                sound[name] = value?.DeepClone();
            }

            return new Settings(path, sound);
        }
        catch (JsonException)
        {
            throw Fault(path, "it is no JSON object");
        }
    }

    /// <summary>Sets one, or takes it out.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    /// <param name="word">The word; null to take it out.</param>
    /// <exception cref="IOException">The file cannot be written, or the system names no folder for it.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Write(string name, string? word)
    {
        if (Path.Length == 0)
        {
            throw new IOException("The system names no folder for a user's settings: set HOME or XDG_CONFIG_HOME.");
        }

        if (word is null)
        {
            _words.Remove(name);
        }
        else
        {
            _words[name] = word;
        }

        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Path)!);
        byte[] text = System.Text.Encoding.UTF8.GetBytes(_words.ToJsonString(Layout) + "\n");
        WholeFile.Write(Path, file => file.Write(text), CancellationToken.None);
    }

    private static bool IsPath(string word) => word.Length is > 0 and <= LongestPath && !word.Contains('\0', StringComparison.Ordinal);

    private static MalformedFileException Fault(string path, string what) =>
        new($"The settings in {path} cannot be used: {what}. Mend the file, or remove it and set them again with sensorlab settings.");
}
