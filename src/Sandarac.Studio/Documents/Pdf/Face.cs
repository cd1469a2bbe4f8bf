using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace Sandarac.Studio.Documents.Pdf;

/// <summary>The five cuts that documents are set in.</summary>
internal enum Cut
{
    Serif,
    SerifItalic,
    SerifSemiBold,
    Sans,
    SansSemiBold,
}

/// <summary>One shipped font file: a cut's letters of one script. Fonts of the machine are not used: a document looks the same wherever it is made.</summary>
internal sealed class Face
{
    private static readonly string[] Scripts = ["latin", "latin-ext", "greek", "cyrillic", "vietnamese"];

    private static readonly Dictionary<Cut, Lazy<Face[]>> Cuts = Enum.GetValues<Cut>().ToDictionary(c => c, c => new Lazy<Face[]>(() => [.. Scripts.Select(s => new Face(FileOf(c, s)))]));

    // HarfBuzz reads the file's bytes for as long as the program runs; the wrappers' finalizers would let go of them.
    private readonly object[] _kept;

    private Face(string file)
    {
        using var stream = typeof(Face).Assembly.GetManifestResourceStream(file) ?? throw new InvalidOperationException($"The font {file} is not embedded.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        var data = SKData.CreateCopy(bytes.ToArray());
        Typeface = SKTypeface.FromData(data);
        var blob = new Blob(data.Data, (int)data.Size, MemoryMode.ReadOnly);
        var face = new HarfBuzzSharp.Face(blob, 0);
        _kept = [data, blob, face];
        Shapes = new Font(face);
        Shapes.SetScale(Typeface.UnitsPerEm, Typeface.UnitsPerEm);
    }

    /// <summary>Its outlines.</summary>
    public SKTypeface Typeface { get; }

    /// <summary>Its distances, in units of the em.</summary>
    public Font Shapes { get; }

    /// <summary>Whether it has a letter.</summary>
    public bool Has(Rune letter) => Shapes.TryGetNominalGlyph(letter.Value, out _);

    /// <summary>The file of a cut that has a letter; null when none has.</summary>
    public static Face? For(Cut cut, Rune letter) => Cuts[cut].Value.FirstOrDefault(f => f.Has(letter));

    /// <summary>The typeface for drawings, which are set in Source Sans 3.</summary>
    public static SKTypeface Drawing(bool semiBold) => Cuts[semiBold ? Cut.SansSemiBold : Cut.Sans].Value[0].Typeface;

    private static string FileOf(Cut cut, string script) => cut switch
    {
        Cut.Serif => $"source-serif-4-{script}-400-normal.ttf",
        Cut.SerifItalic => $"source-serif-4-{script}-400-italic.ttf",
        Cut.SerifSemiBold => $"source-serif-4-{script}-600-normal.ttf",
        Cut.Sans => $"source-sans-3-{script}-400-normal.ttf",
        _ => $"source-sans-3-{script}-600-normal.ttf",
    };
}
