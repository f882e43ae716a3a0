using SensorLab.Files;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Cards;

/// <summary>Writes a card's files, and the same frames as a careful person would have sorted them.</summary>
public static class CardWriter
{
    /// <summary>Writes the card.</summary>
    /// <param name="card">Its frames.</param>
    /// <param name="folder">The folder that stands for it.</param>
    /// <param name="habits">Whether JPEG files lie beside.</param>
    /// <exception cref="IOException">A file could not be written.</exception>
    public static void Write(IReadOnlyList<CardFrame> card, string folder, CardHabits habits) => Parallel.ForEach(card, frame =>
    {
        string path = Path.Combine(folder, frame.File);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        ushort[] codes = frame.Camera.Expose(frame.Shot);
        JpegPreview? preview = frame.Camera.Preview(frame.Shot, codes);
        WholeFile.Write(path, DngWriter.Encode(frame.Shot.Raw, codes, frame.Shot.Form, preview));
        if (habits.WritesJpegs && preview is not null)
        {
            WholeFile.Write(Path.ChangeExtension(path, ".JPG"), preview.Bytes);
        }
    });

    /// <summary>Writes the frames of the set alone, in their roles' folders with their rows of frames.csv.</summary>
    /// <param name="card">The card's frames.</param>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">A file could not be written.</exception>
    public static void WriteSorted(IReadOnlyList<CardFrame> card, string folder)
    {
        CardFrame[] own = [.. card.Where(frame => frame.BelongsToSet)];
        Parallel.ForEach(own, frame =>
        {
            string path = Path.Combine(folder, frame.Shot.File);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            WholeFile.Write(path, frame.Camera.Encode(frame.Shot));
        });
        if (FrameTable.Of([.. own.Select(frame => frame.Shot)]) is { } table)
        {
            WholeFile.Write(Path.Combine(folder, "frames.csv"), System.Text.Encoding.UTF8.GetBytes(table));
        }
    }
}
