using System.Runtime.Intrinsics;
using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Sections;

/// <summary>One layer as the section shows it.</summary>
/// <param name="Note">Its place in the painting's stack.</param>
/// <param name="At">Its readings at the site.</param>
/// <param name="Top">Its upper boundary: height above the section's base, um, at every <see cref="Stack.StepUm"/> of x.</param>
/// <param name="Visible">What medium and unresolved fines reflect.</param>
/// <param name="Glow">How it luminesces.</param>
internal sealed record StackLayer(LayerNote Note, SiteLayer At, float[] Top, Vector128<float> Visible, Vector128<float> Glow);

/// <summary>
/// The layers at a site from the ground upward, their boundaries drawn out between the plane's readings with the unevenness that only a
/// microscope shows. The plane's
/// thicknesses stay the mean of what is drawn.
/// </summary>
internal sealed class Stack
{
    public const float StepUm = 2;

    /// <summary>Medium beside a paint's surface, as a share.</summary>
    public const float Deeper = 0.78f;

    /// <summary>Thinner films are not drawn: no microscope would show them.</summary>
    private const float ThinnestUm = 0.8f;

    public Stack(SectionSite site, IReadOnlyList<LayerNote> notes, IReadOnlyList<SiteLayer> readings, int seed)
    {
        Columns = (int)(1000 * SectionSite.LengthMm / StepUm) + 1;
        Base = [.. Enumerable.Range(0, Columns).Select(c => 14 * Noise.Fractal(seed + 201, c * StepUm / 90, site.X, 3) + 9
            * Noise.Along(seed, 5, c * StepUm / 25))];
        var under = Enumerable.Range(0, Columns).Select(c => Tilt(c)).ToArray();
        Floor = [.. under];
        for (var n = 0; n < notes.Count; n++)
        {
            if (readings[n].Um.Average() < ThinnestUm) continue;
            under = [.. under.Select((height, c) => height + Thickness(readings[n].Um, c, seed + 31 * n + (int)(10 * site.X)))];
            var (visible, glow) = Matrix(notes[n], readings[n]);
            Layers.Add(new StackLayer(notes[n], readings[n], under, visible, glow));
        }
    }

    /// <summary>A stack whose layers are known already.</summary>
    public Stack(float[] broken, float[] floor, IEnumerable<StackLayer> layers)
    {
        (Columns, Base, Floor) = (floor.Length, broken, floor);
        Layers.AddRange(layers);
    }

    public int Columns { get; }

    /// <summary>Layers that are there, bottom first.</summary>
    public List<StackLayer> Layers { get; } = [];

    /// <summary>Where the sample broke off beneath, um above the section's base: inside the ground.</summary>
    public float[] Base { get; }

    /// <summary>Lower face of the ground, um, before the break.</summary>
    public float[] Floor { get; }

    /// <summary>Where along x the sample begins and ends, um.</summary>
    public (float From, float To) Ends { get; init; } = (float.NegativeInfinity, float.PositiveInfinity);

    /// <summary>Medium and unresolved fines: the layer's own colour, a little deeper than its surface. Varnish is a dark clear
    /// film.</summary>
    private static (Vector128<float> Visible, Vector128<float> Glow) Matrix(LayerNote note, SiteLayer at) => note.Name switch
    {
        "aged varnish" => (Vector128.Create(0.150f, 0.105f, 0.050f, 0), Resin.Aged.Luminescence),
        "later varnish" => (Vector128.Create(0.170f, 0.140f, 0.090f, 0), Resin.Later.Luminescence),
        "underdrawing" => (Colour.FromHex(0x3A342C), note.Paint.Luminescence),
        _ => (at.Surface.WithElement(3, 0) * Deeper, note.Paint.Luminescence),
    };

    /// <summary>The sample lies a little askew in its resin.</summary>
    private static float Tilt(int column) => 0.028f * column * StepUm;

    private static float Thickness(float[] readings, int column, int stream)
    {
        var at = (float)column * StepUm / (1000 * SectionSite.LengthMm) * (readings.Length - 1);
        var i = Math.Min((int)at, readings.Length - 2);
        var mean = readings[i] + (at - i) * (readings[i + 1] - readings[i]);
        var um = column * StepUm;
        var (slow, quick) = (Math.Min(0.22f * mean, 3.5f), Math.Min(0.10f * mean, 0.9f));
        return Math.Max(0.15f * mean, mean + slow * Noise.Fractal(stream, um / 70, 0.5f, 3) + quick * Noise.Along(stream, 9, um / 9));
    }
}
