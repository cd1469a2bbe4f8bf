namespace Sandarac.Benchmarks.Teaching;

/// <summary>Aligned layers of which it is known what is what.</summary>
/// <param name="Layers">Files of one size.</param>
/// <param name="MmPerPixel">Their scale.</param>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
/// <param name="TruthOf">The pixels of a class, by its name; a pixel may be nobody's.</param>
internal sealed record TaughtScene(IReadOnlyList<string> Layers, double MmPerPixel, int Width, int Height, Func<string, bool[]> TruthOf);
