using Sandarac.Imaging.Formats;

namespace Sandarac.Studio.Record;

/// <summary>What a viewer must know of a tiled pyramid; kept beside the row that refers to the object, so that no file is opened to list layers.</summary>
/// <param name="Sha256">The pyramid's object.</param>
/// <param name="Width">Columns of the full level.</param>
/// <param name="Height">Rows of the full level.</param>
/// <param name="Levels">Levels, the full one included; each further level halves.</param>
/// <param name="Format">How its samples are stored.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Unit">Unit of the values.</param>
/// <param name="FullScale">Largest value the format can hold; 1 for floats.</param>
/// <param name="Low">Lower end of the suggested contrast window, in the unit.</param>
/// <param name="High">Upper end of the suggested contrast window, in the unit.</param>
public sealed record PyramidFacts(string Sha256, int Width, int Height, int Levels, SampleFormat Format, IReadOnlyList<string> Bands,
    string Unit, double FullScale, double Low, double High);
