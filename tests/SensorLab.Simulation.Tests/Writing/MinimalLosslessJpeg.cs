namespace SensorLab.Simulation.Tests.Writing;

/// <summary>A lossless-JPEG decoder that goes bit by bit after the text of T.81: slow, plain, independent of the suite's reader.</summary>
internal sealed class MinimalLosslessJpeg
{
    private readonly byte[] _bytes;
    private readonly Dictionary<int, Dictionary<(int Length, int Code), int>> _tables = [];
    private int _at;
    private int _bitsLeft;
    private int _current;
    private int _restartInterval;

    private MinimalLosslessJpeg(byte[] bytes) => _bytes = bytes;

    public int Precision { get; private set; }

    public int Components { get; private set; }

    public int Columns { get; private set; }

    public int Predictor { get; private set; }

    public int TableCount => _tables.Count;

    public ushort[] Samples { get; private set; } = [];

    public static MinimalLosslessJpeg Decode(byte[] bytes)
    {
        var jpeg = new MinimalLosslessJpeg(bytes);
        jpeg.Run();
        return jpeg;
    }

    private void Run()
    {
        Assert.Equal(0xD8, Marker());
        int rows = 0;
        while (true)
        {
            int marker = Marker();
            int end = _at + (_bytes[_at] << 8) + _bytes[_at + 1];
            int p = _at + 2;
            switch (marker)
            {
                case 0xC3:
                    Precision = _bytes[p];
                    rows = (_bytes[p + 1] << 8) + _bytes[p + 2];
                    Columns = (_bytes[p + 3] << 8) + _bytes[p + 4];
                    Components = _bytes[p + 5];
                    break;
                case 0xC4:
                    ReadTable(p);
                    break;
                case 0xDD:
                    _restartInterval = (_bytes[p] << 8) + _bytes[p + 1];
                    break;
                case 0xDA:
                    int[] selected = [.. Enumerable.Range(0, Components).Select(i => _bytes[p + 2 + (2 * i)] >> 4)];
                    Predictor = _bytes[p + 1 + (2 * Components)];
                    _at = end;
                    ReadScan(rows, selected);
                    Assert.Equal(0xD9, Marker());
                    Assert.Equal(_bytes.Length, _at);
                    return;
                default:
                    Assert.Fail($"Marker {marker:X2} is not expected.");
                    break;
            }

            _at = end;
        }
    }

    private int Marker()
    {
        Assert.Equal(0xFF, _bytes[_at]);
        _at += 2;
        return _bytes[_at - 1];
    }

    private void ReadTable(int p)
    {
        var table = new Dictionary<(int, int), int>();
        int code = 0;
        int symbol = p + 17;
        for (int length = 1; length <= 16; length++)
        {
            for (int i = 0; i < _bytes[p + length]; i++)
            {
                Assert.NotEqual((1 << length) - 1, code);
                table[(length, code++)] = _bytes[symbol++];
            }

            code <<= 1;
        }

        _tables[_bytes[p] & 15] = table;
    }

    private void ReadScan(int rows, int[] selected)
    {
        int width = Columns * Components;
        Samples = new ushort[rows * width];
        bool isFirstRow = true;
        for (int row = 0; row < rows; row++)
        {
            if (_restartInterval > 0 && row > 0 && row * Columns % _restartInterval == 0)
            {
                _bitsLeft = 0;
                Assert.Equal(0xD0 + (((row * Columns / _restartInterval) - 1) % 8), Marker());
                isFirstRow = true;
            }

            for (int x = 0; x < width; x++)
            {
                int at = (row * width) + x;
                int component = x % Components;
                int left = x >= Components ? Samples[at - Components] : 0;
                int above = isFirstRow ? 0 : Samples[at - width];
                int corner = isFirstRow || x < Components ? 0 : Samples[at - width - Components];
                int predicted = (isFirstRow, x < Components) switch
                {
                    (true, true) => 1 << (Precision - 1),
                    (true, false) => left,
                    (false, true) => above,
                    _ => new[] { 0, left, above, corner, left + above - corner, left + ((above - corner) >> 1), above + ((left - corner) >> 1), (left + above) >> 1 }[Predictor],
                };
                Samples[at] = (ushort)((predicted + Difference(_tables[selected[component]])) & 0xFFFF);
            }

            isFirstRow = false;
        }

        _bitsLeft = 0;
    }

    private int Difference(Dictionary<(int Length, int Code), int> table)
    {
        int code = 0;
        for (int length = 1; length <= 16; length++)
        {
            code = (code << 1) | Bit();
            if (table.TryGetValue((length, code), out int size))
            {
                if (size is 0 or 16)
                {
                    return size == 0 ? 0 : 32_768;
                }

                int value = 0;
                for (int i = 0; i < size; i++)
                {
                    value = (value << 1) | Bit();
                }

                return value < 1 << (size - 1) ? value - (1 << size) + 1 : value;
            }
        }

        throw new InvalidDataException("No such code.");
    }

    private int Bit()
    {
        if (_bitsLeft == 0)
        {
            _current = _bytes[_at++];
            if (_current == 0xFF)
            {
                Assert.Equal(0, _bytes[_at++]);
            }

            _bitsLeft = 8;
        }

        _bitsLeft--;
        return (_current >> _bitsLeft) & 1;
    }
}
