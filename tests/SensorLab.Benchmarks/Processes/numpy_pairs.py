"""Mean and variance of the difference of each pair of frames, channel by channel, in double precision: plain NumPy.

Usage: numpy_pairs.py WIDTH HEIGHT FILE FILE [FILE FILE ...]
Uncompressed 16-bit frames whose mosaic is the file's longest run: where it begins is read from the directory.
"""
import struct
import sys

import numpy


def mosaic(path, width, height):
    with open(path, "rb") as file:
        head = file.read(8)
        file.seek(struct.unpack("<I", head[4:])[0])
        count = struct.unpack("<H", file.read(2))[0]
        entries = [struct.unpack("<HHII", file.read(12)) for _ in range(count)]
    offset = next(value for tag, _, _, value in entries if tag == 273)
    return numpy.fromfile(path, dtype="<u2", count=width * height, offset=offset).reshape(height, width)


width, height = int(sys.argv[1]), int(sys.argv[2])
files = sys.argv[3:]
for first, second in zip(files[::2], files[1::2]):
    a, b = mosaic(first, width, height), mosaic(second, width, height)
    for row in (0, 1):
        for column in (0, 1):
            difference = a[row::2, column::2].astype(numpy.float64) - b[row::2, column::2]
            print(first, row, column, difference.mean(), difference.var())
