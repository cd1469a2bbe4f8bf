using NetVips;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Formats;

/// <summary>Pixels through libvips: one loader, chosen by the file's own first bytes, so that no other of its loaders can be reached.</summary>
internal sealed class VipsSource : IPixelSource
{
    private readonly string _path;
    private readonly Image _image;

    static VipsSource()
    {
        global::NetVips.NetVips.BlockUntrusted = true;
        // libvips would hand out a remembered image for a path whose file has changed since.
        Cache.Max = 0;
    }

    private VipsSource(string path, Image image, Image header)
    {
        _path = path;
        Format = image.Format switch
        {
            Enums.BandFormat.Uchar => TileFormat.UInt8,
            Enums.BandFormat.Ushort => TileFormat.UInt16,
            _ => TileFormat.Float32,
        };
        _image = Format == TileFormat.Float32 && image.Format != Enums.BandFormat.Float ? image.Cast(Enums.BandFormat.Float) : image;
        Header = header;
    }

    /// <summary>The image as loaded, for its metadata and its own format.</summary>
    public Image Header { get; }

    public int Width => _image.Width;

    public int Height => _image.Height;

    public int Bands => _image.Bands;

    public TileFormat Format { get; }

    /// <summary>Reads the header; pixels are decoded when asked for.</summary>
    /// <param name="path">The file.</param>
    /// <param name="kind">Its kind by content.</param>
    /// <param name="onePass">Rows will be asked for from top to bottom, once: nothing is kept, whatever the image's size.</param>
    /// <exception cref="InputProblem">libvips refuses the header.</exception>
    public static VipsSource Open(string path, string kind, bool onePass)
    {
        try
        {
            var header = Load(path, kind, onePass ? Enums.Access.Sequential : Enums.Access.Random);
            if (Orientation(header) <= 1) return new VipsSource(path, header, header);
            // Turning needs the image from all sides at once.
            var whole = onePass ? Load(path, kind, Enums.Access.Random) : header;
            return new VipsSource(path, whole.Autorot(), header);
        }
        catch (VipsException e)
        {
            throw VipsProblem.From(path, e);
        }
    }

    public static int Orientation(Image image) => image.Contains("orientation") ? Convert.ToInt32(image.Get("orientation"), System.Globalization.CultureInfo.InvariantCulture) : 1;

    public void Read(int left, int top, int width, int height, Span<byte> destination)
    {
        try
        {
            using var window = _image.Crop(left, top, width, height);
            var memory = window.WriteToMemory(out var size);
            try
            {
                unsafe
                {
                    new ReadOnlySpan<byte>((void*)memory, checked((int)size)).CopyTo(destination);
                }
            }
            finally
            {
                global::NetVips.NetVips.Free(memory);
            }
        }
        catch (VipsException e)
        {
            throw VipsProblem.From(_path, e);
        }
    }

    /// <summary>Makes sure that libvips is set up as it must be, whoever uses it first.</summary>
    public static void Prepare() => System.Runtime.CompilerServices.RuntimeHelpers.RunClassConstructor(typeof(VipsSource).TypeHandle);

    public void Dispose()
    {
        _image.Dispose();
        Header.Dispose();
    }

    private static Image Load(string path, string kind, Enums.Access access) => kind switch
    {
        "tiff" => Image.Tiffload(path, access: access, failOn: Enums.FailOn.Truncated),
        "png" => Image.Pngload(path, access: access, failOn: Enums.FailOn.Truncated),
        "jpeg" => Image.Jpegload(path, access: access, failOn: Enums.FailOn.Truncated),
        "webp" => Image.Webpload(path, access: access, failOn: Enums.FailOn.Truncated),
        _ => Image.Heifload(path, access: access, failOn: Enums.FailOn.Truncated),
    };
}
