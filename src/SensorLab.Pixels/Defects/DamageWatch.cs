using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Pixels.Defects;

/// <summary>
/// Looks in rows that are read side by side for what a failing card or copy makes: a stretch of one value in one frame, where
/// the others of its level go on.
/// </summary>
/// <remarks>
/// A stretch counts where its value is rare in the rest of the frame (no noise below a code step, no values cut off at black),
/// is not the frame's highest where another frame is as bright (no clipped light), and stands in no other frame of the level
/// (no dead lines, no shading).
/// Damage that a decoder notices, and values that stay plausible, are not this class's matter.
/// </remarks>
internal sealed class DamageWatch
{
    /// <summary>Photosites of a stretch: a quarter of a disk's smallest block of 4096 bytes holds half as many of two bytes.</summary>
    private const int SmallestArea = 1024;

    /// <summary>Rows of a stretch in a lone frame: a dead line is one row, which only other frames tell apart.</summary>
    private const int RowsInALoneFrame = 3;

    /// <summary>One photosite in so many is looked at; a run holds two of them at least.</summary>
    private const int Stride = 32;

    private const int ShortestRun = 2 * Stride;

    /// <summary>A value so many times the other frames' at the same place is no light that one frame has more of.</summary>
    private const int TimesTheOthers = 2;

    /// <summary>Codes are told apart by their lowest bits: the share of a code comes out too large, never too small.</summary>
    private const int Buckets = 4096;

    /// <summary>Share of the looked-at photosites from which a value is the frame's own: a run of a thousand is then chance or shading.</summary>
    private const double RareShare = 0.01;

    private readonly FrameTrail[] _frames;

    /// <summary>Begins a level.</summary>
    /// <param name="frames">Frames read side by side.</param>
    public DamageWatch(int frames) => _frames = [.. Enumerable.Range(0, frames).Select(_ => new FrameTrail())];

    /// <summary>Looks at a frame's next row.</summary>
    /// <param name="frame">Which frame.</param>
    /// <param name="values">The row.</param>
    public void AddRow(int frame, ReadOnlySpan<ushort> values)
    {
        FrameTrail trail = _frames[frame];
        trail.Begin(1 + ((values.Length - 1) / Stride));
        (ushort[] looked, int[] counts, ushort highest) = (trail.Looked, trail.Counts, trail.Highest);
        int last = 0;
        int before = -1;
        for (int i = 0; i < values.Length; i += Stride)
        {
            ushort value = values[i];
            looked[i / Stride] = value;
            counts[value & (Buckets - 1)]++;
            highest = Math.Max(highest, value);
            if (value == before && i > last && i - Stride >= last)
            {
                Run run = RunAround(values, i);
                last = run.End;
                if (run.Length >= ShortestRun && run.Length > trail.Run.Length)
                {
                    trail.Run = run;
                }
            }

            before = value;
        }

        trail.Highest = highest;
    }

    /// <summary>Takes a row as read once all frames have given theirs.</summary>
    /// <param name="row">Its number.</param>
    public void EndRow(int row)
    {
        foreach (FrameTrail trail in _frames)
        {
            if (trail.Run.Length == 0 || _frames.Any(other => other != trail && other.Run.Overlaps(trail.Run)))
            {
                trail.End();
            }
            else
            {
                trail.Extend(row, Towers(trail));
            }
        }
    }

    /// <summary>The first damaged frame, once all rows are read.</summary>
    /// <returns>Which frame, and what is wrong with it; null where none is.</returns>
    public (int Frame, MalformedFileException Damage)? FirstFault()
    {
        int rows = _frames.Length > 1 ? 1 : RowsInALoneFrame;
        int found = Array.FindIndex(_frames, trail => trail.Largest.Area >= SmallestArea && trail.Largest.Rows >= rows && trail.IsRare);
        return found < 0 ? null : (found, new MalformedFileException(string.Create(
            CultureInfo.InvariantCulture,
            $"{_frames[found].Largest.Area} photosites up to row {_frames[found].Largest.LastRow} hold the one value {_frames[found].Largest.Value}, as a failing card or copy makes.")));
    }

    private bool Towers(FrameTrail trail)
    {
        int middle = (trail.Run.Start + trail.Run.End) / 2 / Stride;
        return _frames.Length > 1 && _frames.All(other => other == trail || trail.Run.Value > TimesTheOthers * other.Looked[middle]);
    }

    private static Run RunAround(ReadOnlySpan<ushort> values, int at)
    {
        ushort value = values[at];
        int start = 1 + values[..at].LastIndexOfAnyExcept(value);
        int length = values[at..].IndexOfAnyExcept(value);
        return new Run(value, start, length < 0 ? values.Length : at + length);
    }

    private readonly record struct Run(ushort Value, int Start, int End)
    {
        public int Length => End - Start;

        // By half of the shorter one: clipped light wavers at its edges.
        public bool Overlaps(Run other) => 2 * (Math.Min(End, other.End) - Math.Max(Start, other.Start)) > Math.Min(Length, other.Length);
    }

    private readonly record struct Stretch(ushort Value, int Area, int Rows, int LastRow, bool Towers);

    private sealed class FrameTrail
    {
        private Run _before;
        private Stretch _current;

        public int[] Counts { get; } = new int[Buckets];

        public ushort Highest { get; set; }

        public Run Run { get; set; }

        /// <summary>The row's photosites that are looked at.</summary>
        public ushort[] Looked { get; private set; } = [];

        /// <summary>The largest stretch that no other frame shares.</summary>
        public Stretch Largest { get; private set; }

        /// <summary>Whether its value is neither clipped light nor one that the frame has elsewhere.</summary>
        public bool IsRare
        {
            get
            {
                long all = Counts.Sum(count => (long)count);
                long own = Largest.Area / Stride;
                long elsewhere = Counts[Largest.Value & (Buckets - 1)] - own;
                return (Largest.Value < Highest || Largest.Towers) && elsewhere <= RareShare * (all - own) && all > 2 * own;
            }
        }

        public void Begin(int looked)
        {
            Run = default;
            Looked = Looked.Length == looked ? Looked : new ushort[looked];
        }

        public void Extend(int row, bool towers)
        {
            bool goesOn = _before.Length > 0 && _before.Value == Run.Value && (_before.Overlaps(Run) || Run.Start == 0);
            _current = new Stretch(Run.Value, Run.Length + (goesOn ? _current.Area : 0), 1 + (goesOn ? _current.Rows : 0), row, towers && (!goesOn || _current.Towers));
            _before = Run;
            Largest = _current.Area > Largest.Area ? _current : Largest;
        }

        public void End() => (_current, _before) = (default, default);
    }
}
