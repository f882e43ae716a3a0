using System.Globalization;

namespace SensorLab.Assignment;

/// <summary>Sets aside frames that show no plain field, and those of another aperture.</summary>
internal sealed class EverydayPictures(List<AssignmentQuestion> questions)
{
    /// <summary>Frames of another aperture are strays up to this share; beyond it nobody can tell which aperture was meant.</summary>
    private const double MostStrays = 0.2;

    /// <summary>Sets frames aside.</summary>
    /// <param name="readings">The frames with their light.</param>
    /// <param name="looksAtApertures">Whether frames of another aperture go, too.</param>
    public void SetAside(IReadOnlyList<Reading> readings, bool looksAtApertures)
    {
        Reading[] open = [.. readings.Where(r => r.IsOpen && r.Seen is not null)];
        PlainField field = PlainField.Of([.. readings.Where(r => r.Seen is not null).Select(r => r.Seen!)]);
        foreach (Reading reading in open)
        {
            double texture = field.TextureOf(reading.Seen!);
            if (texture >= PlainField.Textured)
            {
                string why = string.Create(CultureInfo.InvariantCulture, $"No plain field: its light varies by {100 * texture:0} % from place to place. An everyday picture.");
                if (reading.Frame.Filed is null)
                {
                    reading.Take(FrameUse.None, why);
                }
                else
                {
                    reading.Doubt(why);
                }
            }
            else if (texture >= PlainField.Doubtful)
            {
                reading.IsTextureDoubtful = true;
            }
        }

        if (!looksAtApertures)
        {
            return;
        }

        Apertures([.. open.Where(r => r.IsOpen && !r.Seen!.IsDark)]);
    }

    private void Apertures(Reading[] lit)
    {
        var apertures = lit.Where(r => r.Frame.Raw.Metadata.ApertureFNumber is not null).GroupBy(r => r.Frame.Raw.Metadata.ApertureFNumber!.Value).OrderByDescending(g => g.Count()).ToArray();
        Reading[] strays = [.. apertures.Skip(1).SelectMany(g => g)];
        if (strays.Length == 0)
        {
            return;
        }

        bool isClear = strays.Length <= MostStrays * lit.Length;
        foreach (Reading stray in strays)
        {
            string why = string.Create(CultureInfo.InvariantCulture, $"Aperture f/{stray.Frame.Raw.Metadata.ApertureFNumber:0.#}; the set has f/{apertures[0].Key:0.#}.");
            if (isClear)
            {
                stray.Take(FrameUse.None, why);
            }
            else
            {
                stray.Doubt(why);
            }
        }

        if (!isClear)
        {
            questions.Add(new AssignmentQuestion(
                [.. strays.Select(r => r.Frame.File)],
                $"The lit frames have {string.Join(", ", apertures.Select(a => string.Create(CultureInfo.InvariantCulture, $"{a.Count()} times f/{a.Key:0.#}")))}: which aperture is the set's? Move the others out of this folder, or give them the role none in frames.csv."));
        }
    }
}
