using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Layers;

/// <summary>What truth says of one layer of the stack, numbered from 1 at the bottom upward.</summary>
/// <param name="Number">Place in the order of making.</param>
/// <param name="Name">Short name, also used in file names.</param>
/// <param name="Meaning">What it is, in a sentence.</param>
/// <param name="Paint">Its paint, a mean one when the layer holds many mixtures.</param>
/// <param name="CoveredShare">Share of the plane that holds more than 0.5 um of it.</param>
/// <param name="MeanUm">Mean thickness where it is, um.</param>
/// <param name="MaxUm">Greatest thickness, um.</param>
internal sealed record LayerNote(int Number, string Name, string Meaning, Paint Paint, double CoveredShare, double MeanUm, double MaxUm);

/// <summary>A phenomenon's place: 0 where it is not, 255 where it fills the pixel.</summary>
internal sealed record Mask(string Name, string Meaning, byte[] Data)
{
    public static Mask From(string name, string meaning, PlaneGrid grid, ParallelOptions options, Func<int, float> share)
    {
        var data = new byte[grid.Count];
        Parallel.For(0, grid.Height, options, y =>
        {
            for (var i = y * grid.Width; i < (y + 1) * grid.Width; i++) data[i] = (byte)Math.Clamp(255 * share(i) + 0.5f, 0, 255);
        });
        return new Mask(name, meaning, data);
    }
}
