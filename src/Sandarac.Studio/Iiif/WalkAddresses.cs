using Sandarac.Studio.Walking;

namespace Sandarac.Studio.Iiif;

/// <summary>The addresses that an export's files are known by.</summary>
/// <param name="Base">Where the folder is served, without a slash at the end.</param>
internal sealed record WalkAddresses(string Base)
{
    /// <summary>The folder of pictures.</summary>
    public const string Pictures = "pictures";

    /// <summary>File of the annotations by themselves.</summary>
    public const string AnnotationsFile = "annotations.json";

    /// <summary>The manifest.</summary>
    public string Manifest => $"{Base}/manifest.json";

    /// <summary>The canvas: a name, nothing lies there.</summary>
    public string Canvas => $"{Base}/canvas";

    /// <summary>A picture's image service.</summary>
    public string Picture(ExportedPicture picture) => $"{Base}/{Pictures}/{picture.Key}";

    /// <summary>A picture as a whole, as large as there is.</summary>
    public string Whole(ExportedPicture picture) => $"{Picture(picture)}/full/max/0/default.jpg";

    /// <summary>A page of annotations, or one of its annotations.</summary>
    public string Annotation(string page, object? item = null) => item is null ? $"{Base}/{page}" : $"{Base}/{page}/{item}";

    /// <summary>The range of the walk, or of one of its steps.</summary>
    public string Range(object? step = null) => step is null ? $"{Base}/range" : $"{Base}/range/{step}";
}
