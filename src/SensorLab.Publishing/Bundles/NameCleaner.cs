using System.Globalization;

namespace SensorLab.Publishing.Bundles;

/// <summary>Names of lights, steps and looks that would tell something become numbered ones: what was told apart stays apart.</summary>
internal sealed class NameCleaner
{
    private readonly Dictionary<string, string> _names = new(StringComparer.Ordinal);

    /// <summary>Looks all names over.</summary>
    /// <param name="words">Takes words apart.</param>
    /// <param name="noun">What a name that tells something becomes, with a number.</param>
    /// <param name="names">All names; nulls are passed over.</param>
    public NameCleaner(WordCleaner words, string noun, IEnumerable<string?> names)
    {
        string[] all = [.. names.OfType<string>().Distinct(StringComparer.Ordinal)];
        HashSet<string> kept = [.. all.Where(name => words.Clean(name) == name)];
        int number = 0;
        foreach (string name in all)
        {
            _names.Add(name, kept.Contains(name) ? name : Next());
        }

        string Next()
        {
            string made;
            do
            {
                number++;
                made = string.Create(CultureInfo.InvariantCulture, $"{noun} {number}");
            }
            while (kept.Contains(made));

            return made;
        }
    }

    /// <summary>The name to publish; null stays null.</summary>
    /// <param name="name">The name.</param>
    public string? Clean(string? name) => name is null ? null : _names[name];
}
