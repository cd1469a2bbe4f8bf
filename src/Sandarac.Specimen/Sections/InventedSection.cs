using System.Runtime.Intrinsics;
using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Sections;

/// <summary>
/// Invents a section from a seed: 3 to 9 layers in the order in which paintings are made, its place in the frame, its cut and its resin's bubbles. What comes in
/// which share is chosen for variety and not measured on any paintings.
/// </summary>
internal sealed class InventedSection
{
    public const int FewestLayers = 3, MostLayers = 9;

    private readonly int _seed;
    private Dice _dice;

    public InventedSection(int seed)
    {
        (_seed, _dice) = (seed, new Dice(seed ^ 0x5EC7104, 1));
        LengthUm = (float)_dice.Between(460, 640);
        UmPerPixel = Math.Round(_dice.Between(0.32, 0.48), 3);
        TurnDegrees = _dice.Between(-13, 13);
        ObliquityDegrees = _dice.Next() < 0.4 ? 0 : Math.Round(_dice.Between(3, 28), 1);
        BlurPixels = (float)_dice.Between(0.8, 1.5);
        FullWell = (float)_dice.Between(4000, 20_000);
        var layers = Choose();
        Stack = Lay(layers);
        Bubbles = [.. Enumerable.Range(0, _dice.Pick(7)).Select(_ => NewBubble())];
    }

    public float LengthUm { get; }

    public double UmPerPixel { get; }

    /// <summary>Turn of the section in the frame, clockwise as seen.</summary>
    public double TurnDegrees { get; }

    /// <summary>Angle between the cut and the layers' normal: layers look thicker by 1 / cos of it.</summary>
    public double ObliquityDegrees { get; }

    public float BlurPixels { get; }

    public float FullWell { get; }

    public Stack Stack { get; }

    public IReadOnlyList<Bubble> Bubbles { get; }

    /// <summary>How the electron microscope's frame lies on the light microscope's: another size of pixel, a little turned and shifted, as when the stub was put in again.</summary>
    public (double UmPerPixel, double TurnDegrees, double RightUm, double DownUm) ElectronFrame()
    {
        var dice = new Dice(_seed ^ 0xB5E, 2);
        return (Math.Round(UmPerPixel * dice.Between(0.75, 1.3), 3), TurnDegrees + dice.Between(-6, 6), dice.Between(-20, 20), dice.Between(-12, 12));
    }

    private List<InventedLayer> Choose()
    {
        var wanted = FewestLayers + _dice.Pick(MostLayers - FewestLayers + 1);
        var coats = Math.Min(wanted - 2, _dice.Pick(4));
        List<InventedLayer> layers = [Ground()];
        while (layers.Count < wanted - coats) AddPaint(layers);
        while (layers.Count < wanted) AddCoat(layers);
        return layers;
    }

    private InventedLayer Ground() => _dice.Next() < 0.65
        ? Painted("ground", Bodies.Chalk, 45, 110, 0.94f)
        : Painted("ground", Bodies.RedEarth.Mixed(Bodies.Chalk, 0.25f), 35, 90, 0.9f);

    private void AddPaint(List<InventedLayer> layers)
    {
        for (var tries = 0; tries < 60; tries++)
        {
            var layer = layers.Count == 1 && _dice.Next() < 0.5 ? Priming() : _dice.Next() < 0.12 ? Underdrawing() : Passage();
            if (!layer.CanBeToldFrom(layers[^1])) continue;
            layers.Add(layer);
            return;
        }
    }

    private InventedLayer Priming() => Painted("priming", Bodies.LeadWhite.Mixed(_dice.Next() < 0.5 ? Bodies.Ochre : Bodies.Black, 0.2f), 8, 24, 0.9f);

    private InventedLayer Underdrawing() => new("underdrawing", Bodies.Charcoal, 2.5f, 5, Colour.FromHex(0x3A342C), Bodies.Charcoal.Luminescence, (float)_dice.Between(0.35, 0.8));

    private InventedLayer Passage()
    {
        Paint[] bodies = [Bodies.LeadWhite, Bodies.Ochre, Bodies.Umber, Bodies.RedEarth, Bodies.Black, Bodies.Smalt, Bodies.Vermilion, Bodies.Lake, Bodies.LeadTinYellow];
        var paint = bodies[_dice.Pick(bodies.Length)].Mixed(bodies[_dice.Pick(bodies.Length)], (float)_dice.Between(0, 0.45));
        var layer = Painted("paint", paint, 6, 32, (float)_dice.Between(0.8, 1));
        return _dice.Next() < 0.15 ? layer with { Coverage = (float)_dice.Between(0.45, 0.85) } : layer;
    }

    private static InventedLayer Painted(string name, Paint paint, float thin, float thick, float shade) => new(name, paint, thin, thick,
        Vector128.Create((float)paint.Masstone(0), (float)paint.Masstone(1), (float)paint.Masstone(2), 0) * Stack.Deeper * shade, paint.Luminescence);

    private void AddCoat(List<InventedLayer> layers)
    {
        for (var tries = 0; tries < 60; tries++)
        {
            var (roll, under) = (_dice.Next(), layers[^1]);
            var coat = roll < 0.2 && under.Name == "varnish" ? Dirt() : roll < 0.65 ? Coat(Resin.Aged, Vector128.Create(0.150f, 0.105f, 0.050f, 0)) : Coat(Resin.Later, Vector128.Create(0.170f, 0.140f, 0.090f, 0));
            if (!coat.CanBeToldFrom(under)) continue;
            layers.Add(coat);
            return;
        }
    }

    private static InventedLayer Dirt() => new("dirt", Resin.Aged.AsPaint, 2, 3.5f, Vector128.Create(0.035f, 0.031f, 0.026f, 0), Vector128.Create(0.03f, 0.03f, 0.03f, 0));

    private InventedLayer Coat(Resin resin, Vector128<float> visible) =>
        new("varnish", resin.AsPaint, 6, 22, visible * (float)_dice.Between(0.9, 1.1), resin.Luminescence * (float)_dice.Between(0.75, 1.05));

    private Stack Lay(List<InventedLayer> layers)
    {
        var columns = (int)(LengthUm / Stack.StepUm) + 1;
        float Um(int c) => c * Stack.StepUm;
        var bow = (float)_dice.Between(-14, 14);
        float[] floor = [.. Enumerable.Range(0, columns).Select(c => 20 + bow * (1 - 4 * MathF.Pow(Um(c) / LengthUm - 0.5f, 2)) + 5 * Noise.Fractal(_seed + 11, Um(c) / 120, 0.5f, 2))];
        float[] broken = [.. floor.Select((f, c) => f + 6 * Noise.Fractal(_seed + 12, Um(c) / 60, 0.5f, 3))];
        var (under, stretch) = ((float[])broken.Clone(), 1 / (float)Math.Cos(ObliquityDegrees * Math.PI / 180));
        var laid = new List<StackLayer>();
        foreach (var (n, layer) in layers.Index())
        {
            var mean = (float)_dice.Between(layer.ThinUm, layer.ThickUm);
            under = [.. under.Select((height, c) => height + stretch * Thickness(layer, mean, Um(c), _seed + 31 * (n + 1)))];
            var note = new LayerNote(n + 1, layer.Name, layer.Paint.Name, layer.Paint, layer.Coverage, mean, 0);
            laid.Add(new StackLayer(note, new SiteLayer(n + 1, [mean], layer.Visible, layer.Glow), under, layer.Visible.WithElement(3, Backscatter.Between(layer.Paint.Recipe)), layer.Glow));
        }
        return new Stack(broken, broken, laid) { Ends = _dice.Next() < 0.3 ? ((float)_dice.Between(0.16, 0.24) * LengthUm, (float)_dice.Between(0.76, 0.84) * LengthUm) : (float.NegativeInfinity, float.PositiveInfinity) };
    }

    /// <summary>Uneven as in <see cref="Stack"/>; what does not cover all tapers out.</summary>
    private static float Thickness(InventedLayer layer, float mean, float um, int stream)
    {
        var (slow, quick) = (Math.Min(0.22f * mean, 3.5f), Math.Min(0.10f * mean, 0.9f));
        var thick = Math.Max(0.15f * mean, mean + slow * Noise.Fractal(stream, um / 70, 0.5f, 3) + quick * Noise.Along(stream, 9, um / 9));
        if (layer.Coverage >= 1) return thick;
        // Value noise between octaves lies nearly evenly between -0.6 and 0.6: its level decides how much is covered.
        // Thick paint levels itself: it runs out the more slowly the thicker it is.
        var (level, taper) = (0.6f * (1 - 2 * layer.Coverage), 0.02f + mean / 100);
        return thick * Shape.Step(level - taper, level + taper, Noise.Fractal(stream + 5, um / 110, 0.5f, 2));
    }

    private Bubble NewBubble()
    {
        var (x, radius) = ((float)_dice.Between(0.1, 0.9) * LengthUm, (float)_dice.Between(4, 22));
        var column = Math.Clamp((int)(x / Stack.StepUm), 0, Stack.Columns - 1);
        var away = radius * 1.3f + (float)_dice.Between(0, 50);
        return new Bubble(x, _dice.Next() < 0.6 ? Stack.Layers[^1].Top[column] + away : Stack.Base[column] - away, radius);
    }
}
