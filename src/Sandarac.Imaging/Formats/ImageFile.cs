using System.Buffers;
using Sandarac.Imaging.Tiff;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Formats;

/// <summary>An image file opened for reading window by window; nothing is decoded until asked for. Not thread-safe: open one per thread.</summary>
/// <remarks>
/// Plain (uncompressed) TIFF, pyramids included, is read in place. Other formats go through libvips; those without tiles are unpacked as a whole, to
/// memory or to a temporary file, at the first window: for many windows of a large one, make a <see cref="PyramidFile"/> first.
/// </remarks>
public sealed class ImageFile : IDisposable
{
    private readonly FileStream _file;
    private readonly IPixelSource _source;

    private ImageFile(string path, FileStream file, IPixelSource source, ImageFacts facts, byte[]? icc)
    {
        (Path, _file, _source, Facts, IccProfile) = (path, file, source, facts, icc);
    }

    /// <summary>Where the file lies.</summary>
    public string Path { get; }

    /// <summary>What its header says.</summary>
    public ImageFacts Facts { get; }

    /// <summary>The embedded ICC profile; null when the image is untagged.</summary>
    public byte[]? IccProfile { get; }

    /// <summary>How <see cref="ReadBytes"/> gives samples: 8 and 16 bit as they are, everything else as float32.</summary>
    public TileFormat TileFormat => _source.Format;

    /// <summary>Opens a file by its content, whatever its suffix says, and checks it against the limits.</summary>
    /// <exception cref="InputProblem">Missing, unreadable, empty, not an image, damaged header, incomplete, beyond the limits.</exception>
    public static ImageFile Open(string path, ImageLimits? limits = null)
    {
        limits ??= ImageLimits.Default;
        var file = FileChecks.Open(path, limits);
        try
        {
            return Open(path, file, limits);
        }
        catch (InvalidDataException e)
        {
            file.Dispose();
            var name = System.IO.Path.GetFileName(path);
            throw new InputProblem("file-damaged", name, $"{name} is damaged or ends early: its list of contents lies outside the file.", "Copy it again from the camera card or from where it was made.", e);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Reads a window of all bands as the file's own values, never rescaled.</summary>
    /// <param name="left">First column, inside the image.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Columns; the window must lie inside the image.</param>
    /// <param name="height">Rows.</param>
    /// <exception cref="ArgumentOutOfRangeException">The window does not lie inside the image.</exception>
    /// <exception cref="InputProblem">The file ends early or is damaged there.</exception>
    public Plane[] ReadWindow(int left, int top, int width, int height)
    {
        var bytes = ArrayPool<byte>.Shared.Rent(checked(width * height * Facts.Bands * TileFormat.Bytes()));
        try
        {
            ReadBytes(left, top, width, height, bytes);
            return Samples.ToPlanes(bytes, TileFormat, Facts.Bands, width, height);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(bytes);
        }
    }

    /// <summary>Reads a window of all bands, pixel-interleaved, little endian, in <see cref="TileFormat"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The window does not lie inside the image.</exception>
    /// <exception cref="InputProblem">The file ends early or is damaged there.</exception>
    public void ReadBytes(int left, int top, int width, int height, Span<byte> destination)
    {
        if (left < 0 || top < 0 || width < 1 || height < 1 || width > Facts.Width - left || height > Facts.Height - top)
            throw new ArgumentOutOfRangeException(nameof(left), $"The window {left}, {top}, {width} x {height} does not lie in {Facts.Width} x {Facts.Height}.");
        _source.Read(left, top, width, height, destination);
    }

    /// <summary>Another reader of the same file for rows from top to bottom, once.</summary>
    /// <exception cref="InputProblem">The file is no longer the one that was opened.</exception>
    internal IPixelSource OpenForOnePass()
    {
        if (_source is PlainTiff) return _source;
        var again = VipsSource.Open(Path, Facts.Kind, onePass: true);
        if ((again.Width, again.Height, again.Bands, again.Format) == (_source.Width, _source.Height, _source.Bands, _source.Format)) return again;
        again.Dispose();
        var name = System.IO.Path.GetFileName(Path);
        throw new InputProblem("file-changed", name, $"{name} changed while it was read.", "Wait until the program that writes it has finished, then import it again.");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _source.Dispose();
        _file.Dispose();
    }

    private static ImageFile Open(string path, FileStream file, ImageLimits limits)
    {
        var (name, kind) = (System.IO.Path.GetFileName(path), FileChecks.Kind(file));
        var tiff = kind == "tiff" ? TiffDirectory.First(file) : null;
        if (tiff is not null) CheckTiff(name, tiff, file.Length, limits);
        Completeness.Check(file, kind, tiff);
        var header = new HeaderReader(path, kind, tiff);
        if (tiff is not null && PlainTiff.From(file, tiff) is { } plain)
            return new ImageFile(path, file, plain, header.Of(plain), tiff.Bytes(TiffTag.IccProfile));
        var source = VipsSource.Open(path, kind, onePass: false);
        try
        {
            FileChecks.Claims(name, source.Width, source.Height, source.Bands, source.Format.Bytes(), file.Length, limits);
        }
        catch
        {
            source.Dispose();
            throw;
        }
        return new ImageFile(path, file, source, header.Of(source), source.IccProfile);
    }

    private static void CheckTiff(string name, TiffDirectory tiff, long fileBytes, ImageLimits limits)
    {
        if (tiff.Has(TiffTag.DngVersion) || ((tiff.Number(TiffTag.NewSubfileType, 0) & 1) != 0 && tiff.Has(TiffTag.SubIfds)))
            throw new InputProblem("camera-raw", name, $"{name} is a camera's raw file.", "Develop it to a 16-bit TIFF first, without sharpening or local corrections.");
        var sampleBytes = (int)Math.Clamp(tiff.Number(TiffTag.BitsPerSample, 1) / 8, 1, 8);
        FileChecks.Claims(name, tiff.Number(TiffTag.ImageWidth, 0), tiff.Number(TiffTag.ImageLength, 0), tiff.Number(TiffTag.SamplesPerPixel, 1), sampleBytes, fileBytes, limits);
    }
}
