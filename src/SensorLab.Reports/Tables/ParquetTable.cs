using System.Buffers.Binary;
using System.Text;

namespace SensorLab.Reports.Tables;

/// <summary>A table as Apache Parquet: one row group, one plain page a column, nothing compressed.</summary>
/// <remarks>
/// Apache Parquet format 2.9 (parquet.thrift, Encodings.md): version 1 pages, PLAIN values, definition levels of one bit in one
/// bit-packed run. What every reader knows, and no native library of 40 to 110 MB in every download.
/// </remarks>
internal static class ParquetTable
{
    private const int Plain = 0;
    private const int Rle = 3;
    private const int DataPage = 0;
    private const int Uncompressed = 0;
    private const int Optional = 1;
    private const int Utf8 = 0;
    private const int TimestampMillis = 9;

    private static readonly byte[] Magic = "PAR1"u8.ToArray();

    /// <summary>The file's bytes.</summary>
    /// <param name="columns">The columns, one or more, of as many rows each.</param>
    /// <param name="writer">The program that writes it, with its version.</param>
    /// <exception cref="ArgumentException">A column is longer or shorter than the first.</exception>
    public static byte[] Of(IReadOnlyList<ParquetColumn> columns, string writer)
    {
        int rows = columns[0].Values.Count;
        if (columns.Any(c => c.Values.Count != rows))
        {
            throw new ArgumentException("Columns have as many rows each.", nameof(columns));
        }

        using var file = new MemoryStream();
        file.Write(Magic);
        ThriftCompact[] chunks = [.. columns.Select(column => WriteChunk(file, column, rows))];
        long end = file.Length;
        byte[] footer = new ThriftCompact()
            .Int32(1, 1)
            .Structs(2, [new ThriftCompact().Text(4, "schema").Int32(5, columns.Count), .. columns.Select(SchemaOf)])
            .Int64(3, rows)
            .Structs(4, rows == 0 ? [] : [new ThriftCompact().Structs(1, chunks).Int64(2, end - Magic.Length).Int64(3, rows)])
            .Text(6, writer)
            .Bytes();
        file.Write(footer);
        WriteLength(file, footer.Length);
        file.Write(Magic);
        return file.ToArray();
    }

    private static ThriftCompact SchemaOf(ParquetColumn column)
    {
        ThriftCompact element = new ThriftCompact().Int32(1, TypeOf(column.Kind)).Int32(3, Optional).Text(4, column.Name);
        return column.Kind switch
        {
            ParquetKind.Text => element.Int32(6, Utf8),
            ParquetKind.Moment => element.Int32(6, TimestampMillis),
            _ => element,
        };
    }

    private static ThriftCompact WriteChunk(MemoryStream file, ParquetColumn column, int rows)
    {
        byte[] page = PageOf(column);
        byte[] header = new ThriftCompact()
            .Int32(1, DataPage)
            .Int32(2, page.Length)
            .Int32(3, page.Length)
            .Struct(5, new ThriftCompact().Int32(1, rows).Int32(2, Plain).Int32(3, Rle).Int32(4, Rle))
            .Bytes();
        long offset = file.Length;
        file.Write(header);
        file.Write(page);
        long size = header.Length + page.Length;
        return new ThriftCompact().Int64(2, offset).Struct(3, new ThriftCompact()
            .Int32(1, TypeOf(column.Kind))
            .Int32s(2, Plain, Rle)
            .Texts(3, column.Name)
            .Int32(4, Uncompressed)
            .Int64(5, rows)
            .Int64(6, size)
            .Int64(7, size)
            .Int64(9, offset));
    }

    private static byte[] PageOf(ParquetColumn column)
    {
        using var page = new MemoryStream();
        byte[] defined = Bits([.. column.Values.Select(v => v is not null)]);
        byte[] run = [.. Varint(((uint)defined.Length << 1) | 1), .. defined];
        WriteLength(page, run.Length);
        page.Write(run);
        object[] values = [.. column.Values.OfType<object>()];
        if (column.Kind == ParquetKind.Boolean)
        {
            page.Write(Bits([.. values.Cast<bool>()]));
            return page.ToArray();
        }

        Span<byte> eight = stackalloc byte[8];
        foreach (object value in values)
        {
            switch (column.Kind)
            {
                case ParquetKind.Int32:
                    WriteLength(page, (int)value);
                    break;
                case ParquetKind.Double:
                    BinaryPrimitives.WriteDoubleLittleEndian(eight, (double)value);
                    page.Write(eight);
                    break;
                case ParquetKind.Moment:
                    BinaryPrimitives.WriteInt64LittleEndian(eight, ((DateTimeOffset)value).ToUnixTimeMilliseconds());
                    page.Write(eight);
                    break;
                default:
                    byte[] utf8 = Encoding.UTF8.GetBytes((string)value);
                    WriteLength(page, utf8.Length);
                    page.Write(utf8);
                    break;
            }
        }

        return page.ToArray();
    }

    // Least significant bit first, in whole bytes: a bit-packed run is of groups of eight.
    private static byte[] Bits(bool[] values)
    {
        byte[] bytes = new byte[(values.Length + 7) / 8];
        for (int i = 0; i < values.Length; i++)
        {
            bytes[i / 8] |= (byte)(values[i] ? 1 << (i % 8) : 0);
        }

        return bytes;
    }

    private static IEnumerable<byte> Varint(uint value)
    {
        for (; value >= 0x80; value >>= 7)
        {
            yield return (byte)(value | 0x80);
        }

        yield return (byte)value;
    }

    private static void WriteLength(MemoryStream target, int value)
    {
        Span<byte> four = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(four, value);
        target.Write(four);
    }

    private static int TypeOf(ParquetKind kind) => kind switch
    {
        ParquetKind.Boolean => 0,
        ParquetKind.Int32 => 1,
        ParquetKind.Moment => 2,
        ParquetKind.Double => 5,
        _ => 6,
    };
}
