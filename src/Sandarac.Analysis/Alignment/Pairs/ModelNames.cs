using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>Models as people and programs name them.</summary>
public static class ModelNames
{
    /// <summary>Held-out patches choose.</summary>
    public const string Automatic = "auto";

    private static readonly IReadOnlyDictionary<string, MapModel> Names = new Dictionary<string, MapModel>
    {
        ["similarity"] = MapModel.Similarity, ["affine"] = MapModel.Affine, ["homography"] = MapModel.Homography,
        ["homography-with-lens"] = MapModel.HomographyWithLens, ["smooth"] = MapModel.Smooth,
    };

    /// <summary>All names, the automatic choice first.</summary>
    public static IReadOnlyList<string> All { get; } = [Automatic, .. Names.Keys];

    /// <summary>The model of a name; null for the automatic choice.</summary>
    /// <exception cref="InputProblem">No such model.</exception>
    public static MapModel? Parse(string name) => name == Automatic ? null : Names.TryGetValue(name, out var model) ? model
        : throw new InputProblem("model", "model", $"There is no model \"{name}\".", $"Choose one of: {string.Join(", ", All)}.");

    /// <summary>The name of a model.</summary>
    public static string Of(MapModel model) => Names.First(n => n.Value == model).Key;

    /// <summary>What a person reads.</summary>
    public static string Words(MapModel model) => model switch
    {
        MapModel.Similarity => "similarity (place, turn, size)",
        MapModel.Affine => "affine (also proportion and shear)",
        MapModel.Homography => "homography (also perspective)",
        MapModel.HomographyWithLens => "homography with lens distortion",
        _ => "smooth bending over a stiff model",
    };
}
