using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Declaring;

/// <summary>An image given to a reading.</summary>
/// <param name="Name">What a person calls it: the file's name.</param>
/// <param name="Image">The opened file; a reading on the plane gets images that share one grid.</param>
/// <param name="Light">Its light, when known.</param>
/// <param name="Scale">Millimetres per pixel, when known.</param>
/// <param name="Sha256">Hash of the file, lower-case hexadecimal.</param>
public sealed record InputImage(string Name, ImageFile Image, Light? Light, PixelScale? Scale, string Sha256);

/// <summary>What a run works with: checked inputs and arguments, somewhere to write rasters, progress and cancellation.</summary>
public abstract class RunContext
{
    /// <summary>The images in a slot, in the order given.</summary>
    public abstract IReadOnlyList<InputImage> Inputs(string slot);

    /// <summary>A parameter's value.</summary>
    public abstract T Value<T>(Parameter<T> parameter) where T : notnull;

    /// <summary>A length in pixels of an image.</summary>
    /// <exception cref="InputProblem">The image has no scale; the remedy says how to give it.</exception>
    public abstract double Pixels(LengthParameter length, InputImage on);

    /// <summary>Starts writing a declared raster. It becomes a result only when the run ends well.</summary>
    public abstract IRasterWriter CreateRaster(string name, int width, int height, PixelScale? scale);

    /// <summary>Says how far the run is, 0 to 1, and throws when it was cancelled.</summary>
    /// <exception cref="OperationCanceledException">The run was cancelled.</exception>
    public abstract void Report(double done);

    /// <summary>Cancels the run.</summary>
    public abstract CancellationToken Cancellation { get; }
}

/// <summary>Takes a raster window by window, in any order.</summary>
public interface IRasterWriter
{
    /// <summary>Writes one window of all bands.</summary>
    void WriteWindow(int left, int top, IReadOnlyList<Plane> bands);
}
