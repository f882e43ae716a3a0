namespace SensorLab.Pixels.Planes;

/// <summary>A plane divided into blocks of nearly equal size that cover it without a rest.</summary>
internal sealed class BlockGrid
{
    /// <summary>
    /// Sites a side that a block aims at: small enough that shading inside a block is a row part plus a column part,
    /// large enough that centring costs few degrees of freedom ((1 − 1/32)² of them stay).
    /// </summary>
    private const int SmallSide = 32;

    private const int LargeSide = 64;
    private const long LargePlane = 1_000_000;
    private const int DenseRepeat = 2;

    private readonly int[] _columnEdges;
    private readonly int[] _rowEdges;

    /// <summary>Divides a plane.</summary>
    /// <param name="width">Its sites a row.</param>
    /// <param name="height">Its sites a column.</param>
    /// <param name="repeat">
    /// Photosites from one site to the next. Beyond two, small blocks have half the sites a side: they cover more of the
    /// field as it is, and (1 − 1/16)² of the degrees of freedom stay.
    /// </param>
    public BlockGrid(int width, int height, int repeat)
    {
        bool isDense = repeat <= DenseRepeat;
        long sites = (long)width * height * (isDense ? 1 : repeat * repeat / (DenseRepeat * DenseRepeat));
        int side = sites > LargePlane ? LargeSide : isDense ? SmallSide : SmallSide / 2;
        _columnEdges = Edges(width, side);
        _rowEdges = Edges(height, side);
        Width = width;
        Height = height;
    }

    public int Width { get; }

    public int Height { get; }

    public int BlockColumns => _columnEdges.Length - 1;

    public int BlockRows => _rowEdges.Length - 1;

    public int Count => BlockColumns * BlockRows;

    public int TallestBlock => Enumerable.Range(0, BlockRows).Max(RowsOf);

    public int WidestBlock => Enumerable.Range(0, BlockColumns).Max(ColumnsOf);

    public int FirstRowOf(int blockRow) => _rowEdges[blockRow];

    public int RowsOf(int blockRow) => _rowEdges[blockRow + 1] - _rowEdges[blockRow];

    public int FirstColumnOf(int blockColumn) => _columnEdges[blockColumn];

    public int ColumnsOf(int blockColumn) => _columnEdges[blockColumn + 1] - _columnEdges[blockColumn];

    /// <summary>Degrees of freedom of a block's two-way residuals: (rows − 1)(columns − 1).</summary>
    public long DegreesOfFreedomOf(int block) =>
        (long)(RowsOf(block / BlockColumns) - 1) * (ColumnsOf(block % BlockColumns) - 1);

    private static int[] Edges(int length, int side)
    {
        int blocks = Math.Max(1, (length + (side / 2)) / side);
        int[] edges = new int[blocks + 1];
        for (int i = 0; i <= blocks; i++)
        {
            edges[i] = (int)((long)length * i / blocks);
        }

        return edges;
    }
}
