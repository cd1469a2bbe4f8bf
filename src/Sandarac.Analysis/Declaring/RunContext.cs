using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Declaring;

/// <summary>An image given to a reading.</summary>
/// <param name="Name">What a person calls it: the file's name.</param>
/// <param name="Image">The opened file; a reading on the plane gets images that share one grid.</param>
/// <param name="Light">Its light, when known.</param>
/// <param name="Scale">Millimetres per pixel, when known.</param>
/// <param name="Sha256">Hash of the file, lower-case hexadecimal.</param>
public sealed record InputImage(string Name, ImageFile Image, Light? Light, PixelScale? Scale, string Sha256)
{
    /// <summary>For an image on the plane: the photograph that it was made of, surround included; null for a bare file.</summary>
    public OriginalView? Original { get; init; }

    /// <summary>Where its lamp stood, in inputs for which that counts; null when unknown.</summary>
    public LampAngles? Lamp { get; init; }
}

/// <summary>A photograph and where it lies.</summary>
/// <param name="PyramidPath">Its pixels as a pyramid.</param>
/// <param name="Colours">Bands that show the picture.</param>
/// <param name="ToImage">From its pixels to the pixels of the image on the plane.</param>
public sealed record OriginalView(string PyramidPath, int Colours, PlaneMap ToImage);

/// <summary>What a run works with: checked inputs and arguments, somewhere to write rasters, progress and cancellation. A derived class
/// says where rasters go.</summary>
public abstract class RunContext
{
    private readonly Declaration _declaration;
    private readonly Arguments _arguments;
    private readonly IReadOnlyDictionary<string, IReadOnlyList<InputImage>> _inputs;
    private readonly IProgress<double>? _progress;
    private (double From, double To) _part = (0, 1);

    /// <summary>Checks the inputs against the declaration.</summary>
    /// <param name="declaration">The reading's declaration.</param>
    /// <param name="arguments">Complete parameters.</param>
    /// <param name="inputs">Images by slot; an empty slot may be left out.</param>
    /// <param name="progress">Hears how far the run is, 0 to 1; called from any thread.</param>
    /// <param name="cancellation">Cancels the run.</param>
    /// <exception cref="InputProblem">The inputs do not fit the declaration.</exception>
    protected RunContext(Declaration declaration, Arguments arguments, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs,
        IProgress<double>? progress, CancellationToken cancellation)
    {
        InputCheck.Check(declaration, inputs);
        (_declaration, _arguments, _inputs, _progress, Cancellation) = (declaration, arguments, inputs, progress, cancellation);
    }

    /// <summary>Cancels the run.</summary>
    public CancellationToken Cancellation { get; }

    /// <summary>How tiled bodies are cut up.</summary>
    public Tiling Tiling { get; init; } = Tiling.Default;

    /// <summary>As many threads as the run may use, and its cancellation.</summary>
    public ParallelOptions Workers => new() { MaxDegreeOfParallelism = Tiling.Threads, CancellationToken = Cancellation };

    /// <summary>The images in a slot, in the order given; none when the slot is empty.</summary>
    public IReadOnlyList<InputImage> Inputs(string slot) => _inputs.GetValueOrDefault(slot) ?? [];

    /// <summary>A parameter's value.</summary>
    public T Value<T>(Parameter<T> parameter) where T : notnull => _arguments.Value(parameter);

    /// <summary>A length in pixels of an image.</summary>
    /// <exception cref="InputProblem">The image has no scale; the remedy says how to give it.</exception>
    public double Pixels(LengthParameter length, InputImage on) => on.Scale is { } scale
        ? Value(length) / scale.MmPerPixel
        : throw new InputProblem("no-scale", on.Name, $"{length.Name} is a length in mm, and {on.Name} has no scale.",
            "Give the scale with --scale-mm-per-px; in a studio, give the painting's height and width.");

    /// <summary>Starts writing a declared raster. It becomes a result only when the run ends well.</summary>
    /// <param name="name">The name under which it is declared.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="scale">Millimetres per pixel, when known.</param>
    public IRasterWriter CreateRaster(string name, int width, int height, PixelScale? scale) => CreateRaster(
        _declaration.Rasters.FirstOrDefault(r => r.Name == name) ?? throw new ArgumentException($"The raster {name} is not declared.", nameof(name)),
        width, height, scale);

    /// <summary>Says how far the run, or the part of it that was begun last, is, 0 to 1, and throws when it was cancelled.</summary>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    public void Report(double done)
    {
        Cancellation.ThrowIfCancellationRequested();
        _progress?.Report(_part.From + done * (_part.To - _part.From));
    }

    /// <summary>Begins a part of the run, so that a run of several passes does not seem to have ended with the first.</summary>
    /// <param name="from">How far the run is when the part begins, 0 to 1.</param>
    /// <param name="to">How far when it ends.</param>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    public void Begin(double from, double to)
    {
        _part = (from, to);
        Report(0);
    }

    /// <summary>Makes the place where a declared raster goes.</summary>
    protected abstract IRasterWriter CreateRaster(RasterOutput output, int width, int height, PixelScale? scale);
}

/// <summary>Takes a raster window by window, in any order.</summary>
public interface IRasterWriter
{
    /// <summary>Writes one window of all bands.</summary>
    void WriteWindow(int left, int top, IReadOnlyList<Plane> bands);
}
