using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

public class LibRawLibraryTests
{
    [Fact]
    public void Layout_InstalledLibrary_IsProvenInAllParts()
    {
        LibRawLayout layout = LibRawCalls.RequireLibrary().Layout!;

        Assert.NotNull(layout.RawImageOffset);
        Assert.NotNull(layout.BlackOffset);
        Assert.NotNull(layout.MaskOffset);
        Assert.True(layout.HasExposure);
        Assert.True(layout.HasNames);
    }

    [Fact]
    public void Open_LibraryMissing_NamesThePackageToInstall()
    {
        UnsupportedFileException refusal = LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
            Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path, () => null, layout => layout)));

        Assert.False(refusal.IsUnsuitable);
        Assert.Contains("none is installed", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("apt-get install libraw20", refusal.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void TryLoad_NothingLoads_AsksForEveryFileNewestFirst()
    {
        List<string> asked = [];

        LibRawLibrary? library = LibRawLibrary.TryLoad(file =>
        {
            asked.Add(file);
            return 0;
        });

        Assert.Null(library);
        Assert.Equal(LibRawLibrary.CandidateFiles(), asked);
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The names below are Linux's.");
        string[] names = [.. asked.Select(file => Path.GetFileName(file)).Distinct()];
        Assert.True(Array.IndexOf(names, "libraw_r.so.24") < Array.IndexOf(names, "libraw_r.so.20"));
        Assert.Equal("libraw_r.so", names[^1]);
    }

    [Fact]
    public void CandidateFiles_Always_LieInTheSystemsFoldersOrTheProgramsOwn()
    {
        string own = Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory);

        Assert.All(LibRawLibrary.CandidateFiles(), file => Assert.True(
            Path.IsPathFullyQualified(file) && (Path.GetDirectoryName(file) == own || file.StartsWith("/usr/", StringComparison.Ordinal) || file.StartsWith("/opt/", StringComparison.Ordinal)), file));
    }

    [Fact]
    public void Open_KnownFile_GivesTheWholeMosaicMarginsAndBlacks()
    {
        _ = LibRawCalls.RequireLibrary();
        LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
        {
            using IMosaicReader reader = LibRawMosaicReader.Open(path);
            RawFrame frame = reader.Frame;
            ushort[] codes = LibRawCalls.ReadAll(reader);

            Assert.Equal((ProofDng.WidthPixels, ProofDng.HeightPixels), (frame.Layout.WidthPixels, frame.Layout.HeightPixels));
            Assert.Equal(new PixelRectangle(ProofDng.LeftMargin, ProofDng.TopMargin, ProofDng.ActiveWidth, ProofDng.ActiveHeight), frame.Layout.ActiveArea);
            Assert.Equal([new PixelRectangle(0, ProofDng.TopMargin, ProofDng.MaskRight, ProofDng.ActiveHeight)], frame.Layout.MaskedAreas);
            Assert.Equal("GRBG", frame.Layout.ColourFilterArray.Name);
            Assert.Equal(14, frame.Layout.BitDepth);
            Assert.Equal(ProofDng.White, frame.Declared.WhiteDn);
            foreach (SensorChannel channel in frame.Layout.ColourFilterArray.Channels)
            {
                (int row, int column) = frame.Layout.ColourFilterArray.SitesOf(channel)[0];
                Assert.Equal(ProofDng.BlackAt(row, column), frame.Declared.BlackDn[channel]);
            }

            Assert.False(frame.IsCompanded);
            Assert.All(Enumerable.Range(0, codes.Length), i => Assert.Equal(ProofDng.CodeAt(i / ProofDng.WidthPixels, i % ProofDng.WidthPixels), codes[i]));
            return 0;
        });
    }

    [Fact]
    public void Open_MosaicNotProven_GivesTheVisibleAreaAndClaimsNoMargins()
    {
        _ = LibRawCalls.RequireLibrary();
        LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
        {
            using IMosaicReader reader = LibRawMosaicReader.Open(path, () => LibRawLibrary.Installed, layout => layout with { RawImageOffset = null, BlackOffset = null });
            MosaicLayout geometry = reader.Frame.Layout;
            ushort[] codes = LibRawCalls.ReadAll(reader);

            Assert.Equal(new PixelRectangle(0, 0, ProofDng.ActiveWidth, ProofDng.ActiveHeight), geometry.ActiveArea);
            Assert.Equal((ProofDng.ActiveWidth, ProofDng.ActiveHeight), (geometry.WidthPixels, geometry.HeightPixels));
            Assert.Empty(geometry.MaskedAreas);
            Assert.Empty(reader.Frame.Declared.BlackDn);
            Assert.All(Enumerable.Range(0, codes.Length), i => Assert.Equal(
                ProofDng.CodeAt(ProofDng.TopMargin + (i / ProofDng.ActiveWidth), ProofDng.LeftMargin + (i % ProofDng.ActiveWidth)), codes[i]));
            return 0;
        });
    }

    [Fact]
    public void ReadRows_MoreThanIsLeftOrNoWholeRow_Refuses()
    {
        _ = LibRawCalls.RequireLibrary();
        LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
        {
            using IMosaicReader reader = LibRawMosaicReader.Open(path);
            Assert.Throws<ArgumentException>(() => reader.ReadRows(new ushort[ProofDng.WidthPixels + 1]));
            Assert.Throws<ArgumentException>(() => reader.ReadRows(new ushort[ProofDng.WidthPixels * (ProofDng.HeightPixels + 1)]));
            reader.Dispose();
            Assert.Throws<ObjectDisposedException>(() => reader.ReadRows(new ushort[ProofDng.WidthPixels]));
            return 0;
        });
    }

    [Fact]
    public async Task Open_ManyReadersAtOnce_EachReadsItsOwn()
    {
        _ = LibRawCalls.RequireLibrary();
        ushort[][] mosaics = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(() =>
            LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
            {
                using IMosaicReader reader = LibRawMosaicReader.Open(path);
                return LibRawCalls.ReadAll(reader);
            }))));

        Assert.All(mosaics, mosaic => Assert.Equal(mosaics[0], mosaic));
    }
}
