using NetVips;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Formats;

/// <summary>Pixels through libvips: one loader, chosen by the file's own first bytes, so that no other of its loaders can be reached.</summary>
internal sealed class VipsSource : IPixelSource
{
    private const int RowsAtOnce = 64;
    private readonly string _path;
    private readonly Image _image;

    static VipsSource()
    {
        global::NetVips.NetVips.BlockUntrusted = true;
        // libvips would hand out a remembered image for a path whose file has changed since.
        Cache.Max = 0;
        // Its remarks on odd files would go to the console; what matters of them comes as an error.
        Log.SetLogHandler("VIPS", Enums.LogLevelFlags.Warning, (_, _, _) => { });
    }

    private VipsSource(string path, Image loaded, Image header)
    {
        _path = path;
        var image = ToRgb(loaded);
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

    /// <summary>Whether the file holds inks or another kind of colour numbers, which are converted to sRGB as they are read.</summary>
    public bool IsConverted => Header.Interpretation is Enums.Interpretation.Cmyk or Enums.Interpretation.Lab or Enums.Interpretation.Labs or Enums.Interpretation.Labq or Enums.Interpretation.Xyz;

    /// <summary>The profile of the pixels as they are read; null when untagged.</summary>
    public byte[]? IccProfile => _image.Contains("icc-profile-data") ? (byte[])_image.Get("icc-profile-data") : null;

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
            // A region pulls rows in this thread. Writing a crop to memory would end with libvips dropping the rows it has decoded ahead,
            // which in a single pass cannot be decoded again.
            using var region = Region.New(_image);
            for (var y = 0; y < height; y += RowsAtOnce)
            {
                var rows = region.Fetch(left, top + y, width, Math.Min(RowsAtOnce, height - y));
                rows.CopyTo(destination);
                destination = destination[rows.Length..];
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

    private static Image ToRgb(Image image) => image.Interpretation switch
    {
        Enums.Interpretation.Cmyk => image.IccTransform("srgb", embedded: true, inputProfile: "cmyk"),
        Enums.Interpretation.Lab or Enums.Interpretation.Labs or Enums.Interpretation.Labq or Enums.Interpretation.Xyz => image.Colourspace(Enums.Interpretation.Srgb),
        _ => image,
    };

    private static Image Load(string path, string kind, Enums.Access access) => kind switch
    {
        "tiff" => Image.Tiffload(path, access: access, failOn: Enums.FailOn.Error),
        "png" => Image.Pngload(path, access: access, failOn: Enums.FailOn.Error),
        "jpeg" => Image.Jpegload(path, access: access, failOn: Enums.FailOn.Error),
        "webp" => Image.Webpload(path, access: access, failOn: Enums.FailOn.Error),
        _ => Image.Heifload(path, access: access, failOn: Enums.FailOn.Error),
    };
}
