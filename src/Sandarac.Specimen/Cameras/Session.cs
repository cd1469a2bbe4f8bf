using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Lighting;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Cameras;

/// <summary>A day in the studio: takes every photograph that is wanted, light after light.</summary>
internal sealed class Session(SpecimenSettings settings, Canvas canvas, string folder, ParallelOptions options, Action<double,
    string> report)
{
    /// <summary>A sensor's colours that are not quite sRGB's, and a lamp a little warm.</summary>
    private static readonly float[] CameraColours = [1.03f, -0.03f, 0.01f, 0.015f, 0.975f, 0.01f, 0.005f, 0.035f, 0.92f];

    private readonly PlaneImage _image = new(canvas.Grid, (_, _) => default);
    private readonly List<Exposure> _taken = [];

    /// <summary>What was planned, wanted or not: truth lists all poses.</summary>
    public IReadOnlyList<Exposure> Taken => _taken;

    public void TakeAll()
    {
        TakeVisible();
        TakeRaking();
        TakeLuminescence();
        TakeInfrared();
        TakeRadiographs();
    }

    private void TakeVisible()
    {
        var lamps = Lamps.Pair(1100, 1050, 0.54f);
        var frame = Frame("VIS_01.tif", "VIS", "Painting", 1, "Painting, visible light", 1 / 8.0) with { Lamps = lamps, Gain = 0.98f,
            ColourMatrix = CameraColours };
        _image.Surround = Surroundings.Board(0.055f, (Lights.Left, 0.5f), (Lights.Right, 0.5f));
        Take([frame], () => Lights.Visible(canvas, (Lights.Left, Lights.Right), _image, options));
        Take(frame with { FileName = "VIS_chart.tif", Subject = "Chart", Fineness = 4,
            Exif = frame.Exif with { Description = "24-patch chart and scale, visible light" } }, Chart.At);
        TakeFlat(frame, "VIS_flat.tif");
    }

    private void TakeRaking()
    {
        foreach (var (n, side) in Catalogue.Raking.Index())
        {
            var lamp = new Lamp(side.Azimuth, Catalogue.RakingElevation);
            var name = Catalogue.RakingName(side);
            var frame = Frame(name + ".tif", "RAK", "Painting", 2, $"Painting, raking light from {side.Side}", 1 / 4.0, n) with
            {
                Lamps = Lamps.Single(lamp, 1400), Gain = 0.62f, LampAzimuth = lamp.AzimuthDegrees, LampElevation = lamp.ElevationDegrees,
                    ColourMatrix = CameraColours,
            };
            _image.Surround = Surroundings.Board(0.055f, (lamp, 1));
            Take([frame], () => Lights.Raking(canvas, lamp, _image, options));
            TakeFlat(frame, name + "_flat.tif");
        }
    }

    private void TakeLuminescence()
    {
        var frame = Frame("UVL_01.tif", "UVL", "Painting", 3, "Painting, ultraviolet-induced luminescence, 365 nm", 15) with
        {
            Lamps = Lamps.Pair(900, 850, 0.60f), Gain = 0.80f, FullWell = 9_000, ReadNoise = 9, BlurPixels = 0.7f,
        };
        _image.Surround = (_, _) => Lights.Leak * 0.10f;
        Take([frame], () => Lights.Luminescence(canvas, _image, options));
        TakeFlat(frame, "UVL_flat.tif");
    }

    private void TakeInfrared()
    {
        var frame = Frame("IR_01.tif", "IR", "Painting", 4, "Painting, infrared 900-1000 nm", 2) with
        {
            Lamps = Lamps.Pair(1000, 1000, 0.46f), Gain = 0.80f, Bands = 1, FullWell = 14_000, ReadNoise = 12, BlurPixels = 0.85f,
                Vignette = 0.14f,
        };
        frame = frame with { Exif = frame.Exif with { Model = "BW-3 full spectrum" } };
        _image.Surround = Surroundings.Board(0.07f, (Lights.Left, 0.5f), (Lights.Right, 0.5f));
        Take([frame], () => Lights.Infrared(canvas, _image, options));
        TakeFlat(frame, "IR_flat.tif");
    }

    private void TakeRadiographs()
    {
        Exposure[] plates = [.. RadiographPlate.All.Select(p => p.Frame(settings))];
        _image.Surround = (_, _) => Vector128.CreateScalar(Lights.Film(1));
        Take(plates, () => Lights.Radiograph(canvas, _image, options), RadiographPlate.All.Select(p => p.Seen(settings, _image)).ToArray());
    }

    private Exposure Frame(string file, string light, string subject, int setup, string description, double seconds, int exposure = 0) =>
        new()
    {
        FileName = file, Light = light, Subject = subject, PixelsPerInch = settings.PixelsPerInch,
        Pose = Pose.OnStand(settings.PixelsPerInch, settings.Seed, setup, exposure),
        Exif = new ExifFacts("Brackwater", "BW-3", description, new DateTime(2024, 3, 12, 8 + setup, 10 + 2 * exposure, 24), seconds, 8,
            light == "UVL" ? 400 : 100),
    };

    /// <summary>A grey card that fills the frame, under the same lamps and lens.</summary>
    private void TakeFlat(Exposure frame, string name)
    {
        var flat = frame with { FileName = name, Subject = "FlatField",
            Exif = frame.Exif with { Description = $"Flat field for {frame.FileName}", TakenAt = frame.Exif.TakenAt.AddMinutes(1) } };
        Take(flat, (_, _) => Vector128.Create(0.55f));
    }

    private void Take(Exposure exposure, Radiance scene) => Take([exposure], () => { }, [scene]);

    /// <summary>Takes those of the exposures that are wanted; computes the light only when one is.</summary>
    private void Take(Exposure[] exposures, Action light, Radiance[]? scenes = null)
    {
        _taken.AddRange(exposures);
        Exposure[] wanted = [.. exposures.Where(e => settings.Wants(e.FileName))];
        if (wanted.Length > 0)
        {
            options.CancellationToken.ThrowIfCancellationRequested();
            report((double)_taken.Count / Catalogue.FileNames.Count, $"photographing {wanted[0].FileName}");
            light();
        }
        foreach (var e in wanted) Shutter.Take(e, scenes?[Array.IndexOf(exposures, e)] ?? _image.At, folder, settings.Seed, options);
    }
}
