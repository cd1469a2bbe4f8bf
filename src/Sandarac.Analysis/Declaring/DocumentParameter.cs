using Sandarac.Imaging;

namespace Sandarac.Analysis.Declaring;

/// <summary>A document as the value: on the command line the name of a file, whose whole content becomes the value, so that it is stored with the run.</summary>
/// <param name="Name">Kebab-case name.</param>
/// <param name="Label">What a form calls it.</param>
/// <param name="Help">One or two sentences.</param>
/// <param name="Kind">What kind of document: "GeoJSON".</param>
/// <param name="Canonical">Checks a document and brings it into one form; an empty text stands for none.</param>
public sealed record DocumentParameter(string Name, string Label, string Help, string Kind, Func<string, string> Canonical) : Parameter<string>(Name, Label, Help, null, "")
{
    /// <inheritdoc/>
    public override string Type => "document";

    /// <inheritdoc/>
    public override string RangeText => $"a {Kind} document";

    internal override object ParseObject(string text) => Canonical(text);

    /// <summary>The document in a file.</summary>
    /// <exception cref="InputProblem">"file-not-read".</exception>
    public static string FromFile(string path)
    {
        try
        {
            return File.ReadAllText(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputProblem("file-not-read", path, $"{path} cannot be read.", "Name a file that exists.", e);
        }
    }
}
