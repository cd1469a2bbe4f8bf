using Sandarac.Specimen.Later;

namespace Sandarac.Specimen;

/// <summary>What to draw: everything that decides the result. The same settings give the same pixels on every machine and thread
/// count.</summary>
/// <param name="PixelsPerInch">Resolution of the plane's grid and, nominally, of the photographs: 40 to 1200.</param>
/// <param name="Seed">Chooses one painting out of many: strokes, cracks, poses and noise all follow from it.</param>
/// <param name="OnlyPhotographs">File names to write (<c>VIS_01.tif</c>); null for all. Truth is written either way.</param>
/// <param name="Threads">Threads at most; 0 for as many as there are processors. Never changes the result.</param>
/// <param name="WithCsv">Also write <c>photographs.csv</c>, which states each photograph's light and subject.</param>
/// <param name="Later">Instead photograph the same painting again, some years on, in this state; null for the first session.</param>
public sealed record SpecimenSettings(
    double PixelsPerInch,
    int Seed = 1,
    IReadOnlyList<string>? OnlyPhotographs = null,
    int Threads = 0,
    bool WithCsv = false,
    LaterState? Later = null)
{
    /// <summary>Working memory the drawing needs, bytes: about 80 for each pixel of the plane's grid and 400 MB beside; some 2.8 GB at 300
    /// ppi and 38 GB at 1200.</summary>
    public long MemoryNeeded => (long)(4e8 + 80 * (SpecimenPainting.WidthMm * PixelsPerInch / 25.4)
        * (SpecimenPainting.HeightMm * PixelsPerInch / 25.4));

    internal bool Wants(string fileName) => OnlyPhotographs is null || OnlyPhotographs.Contains(fileName, StringComparer.OrdinalIgnoreCase);
}

/// <summary>How far a drawing is.</summary>
/// <param name="Fraction">0 to 1, never falling.</param>
/// <param name="Doing">What is being done now, in words for a person.</param>
public sealed record DrawingProgress(double Fraction, string Doing);

/// <summary>The invented painting's identity, for whoever records it.</summary>
public static class SpecimenPainting
{
    /// <summary>Width of the painted face, mm.</summary>
    public const double WidthMm = 518;

    /// <summary>Height of the painted face, mm.</summary>
    public const double HeightMm = 412;

    /// <summary>Title; the painting, its painter and its place are invented.</summary>
    public const string Title = "Ferry at low water";

    /// <summary>Technique and support, as a catalogue says it.</summary>
    public const string Technique = "oil on oak";
}
