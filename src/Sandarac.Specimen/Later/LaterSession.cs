using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Lighting;
using Sandarac.Specimen.Output;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Later;

/// <summary>Another day in another studio: the same painting in visible light and in luminescence, with another camera, its lamps nearly where they were.</summary>
internal sealed class LaterSession(SpecimenSettings settings, Canvas canvas, string folder, ParallelOptions options)
{
    /// <summary>The photographs.</summary>
    public static IReadOnlyList<string> FileNames { get; } = ["VIS_02.tif", "UVL_02.tif"];

    private readonly Dice _dice = new(settings.Seed ^ 0x01A7E2, 1);
    private readonly PlaneImage _image = new(canvas.Grid, (_, _) => default);
    private readonly List<Exposure> _taken = [];

    /// <summary>What was planned, wanted or not.</summary>
    public IReadOnlyList<Exposure> Taken => _taken;

    public void TakeAll()
    {
        var dice = _dice;
        var ppi = settings.PixelsPerInch * dice.Between(0.8, 1.25);
        Lamp left = new(270 + dice.Between(-4, 4), 45 + dice.Between(-3, 3)), right = new(90 + dice.Between(-4, 4), 45 + dice.Between(-3, 3));
        _image.Surround = Surroundings.Board(0.06f, (left, 0.5f), (right, 0.5f));
        Take(Frame("VIS_02.tif", "VIS", ppi, 11, "Painting, visible light", 1 / 15.0) with
        {
            Lamps = Lamps.Pair(1150, 1100, (float)dice.Between(0.46, 0.54)), Gain = (float)dice.Between(0.75, 0.95), Vignette = (float)dice.Between(0.05, 0.2),
            BlurPixels = (float)dice.Between(0.5, 0.8), FullWell = 40_000, ReadNoise = 5,
            ColourMatrix = [(float)dice.Between(0.9, 1), 0.01f, 0, 0.01f, 0.97f, 0.01f, 0, 0.02f, (float)dice.Between(0.92, 1.05)],
        }, () => Lights.Visible(canvas, (left, right), _image, options));
        _image.Surround = (_, _) => Lights.Leak * 0.10f;
        Take(Frame("UVL_02.tif", "UVL", ppi, 13, "Painting, ultraviolet-induced luminescence, 365 nm", 20) with
        {
            Lamps = Lamps.Pair(950, 880, (float)dice.Between(0.52, 0.62)), Gain = (float)dice.Between(0.7, 0.85), FullWell = 8_000, ReadNoise = 8, BlurPixels = 0.75f,
        }, () => Lights.Luminescence(canvas, _image, options));
    }

    private Exposure Frame(string file, string light, double ppi, int setup, string description, double seconds) => new()
    {
        FileName = file, Light = light, Subject = "Painting", PixelsPerInch = ppi, Fineness = 2, Pose = Pose.OnStand(ppi, settings.Seed, setup, 0),
        Exif = new ExifFacts("Brackwater", "BW-5", description, new DateTime(2027, 10, 4, setup, 10, 24), seconds, 8, 100),
    };

    private void Take(Exposure exposure, Action light)
    {
        _taken.Add(exposure);
        if (!settings.Wants(exposure.FileName)) return;
        options.CancellationToken.ThrowIfCancellationRequested();
        light();
        Shutter.Take(exposure, _image.At, folder, settings.Seed, options);
    }
}
