using NetTopologySuite.Geometries;
using Sandarac.Imaging;

namespace Sandarac.Specimen.Scoring;

/// <summary>Places found on a specimen, against its truth. For tests, benchmarks and anyone who has a way of finding such places; nothing that examines photographs may use it.</summary>
/// <param name="Additions">All later additions, whatever kind was given.</param>
/// <param name="Over">Later additions over the varnish, kind "later-addition".</param>
/// <param name="Under">Later additions under varnish, kind "veiled-addition".</param>
/// <param name="Cleaning">The earlier cleaning, kinds "earlier-cleaning" and "varnish-gap"; later additions count neither way.</param>
/// <param name="FalseOnDark">Share of the painter's own dark paint that was taken for later additions.</param>
public sealed record SpecimenScore(ZoneScore Additions, ZoneScore Over, ZoneScore Under, ZoneScore Cleaning, double FalseOnDark)
{
    /// <summary>Columns and rows of the points 0.5 mm apart on which all is compared.</summary>
    public static (int Columns, int Rows) Lattice => (TruthLattice.Columns, TruthLattice.Rows);

    /// <summary>Compares.</summary>
    /// <param name="folder">The specimen's folder, with <c>truth/</c>.</param>
    /// <param name="found">Kinds and places, mm on the plane, y down.</param>
    /// <exception cref="InputProblem">"no-truth".</exception>
    public static SpecimenScore Of(string folder, IReadOnlyList<(string Kind, Geometry Place)> found)
    {
        if (!File.Exists(Path.Combine(folder, "truth", "masks", "retouching_over_varnish.tif")))
            throw new InputProblem("no-truth", folder, $"{folder} holds no specimen with its truth.", "Draw one: sandarac specimen FOLDER.");
        var (over, under, dark) = (TruthLattice.Mask(folder, "retouching_over_varnish"), TruthLattice.Mask(folder, "retouching_under_varnish"), TruthLattice.Mask(folder, "dark_original"));
        float[] either = [.. over.Zip(under, Math.Max)];
        Geometry[] Of(params string[] kinds) => [.. found.Where(f => kinds.Contains(f.Kind)).Select(f => f.Place)];
        var additions = Of("later-addition", "veiled-addition");
        var own = Enumerable.Range(0, dark.Length).Where(i => dark[i] > 0.5f && either[i] < 0.1f).ToHashSet();
        return new SpecimenScore(ZoneScore.Of(additions, either), ZoneScore.Of(Of("later-addition"), over), ZoneScore.Of(Of("veiled-addition"), under),
            ZoneScore.Of(Of("earlier-cleaning", "varnish-gap"), TruthLattice.Mask(folder, "cleaning_window"), [.. either.Select(e => e > 0)]),
            additions.SelectMany(TruthLattice.Inside).Distinct().Count(own.Contains) / (double)own.Count);
    }

    /// <summary>Thickness of all varnish at points 0.5 mm apart, row by row from the face's upper left corner, um; NaN where later additions lie.</summary>
    public static float[] VarnishUm(string folder)
    {
        float[] Layer(string name) => TruthLattice.Values(Path.Combine(folder, "truth", "layers", name + "_um100.tif"), 0.01);
        var (aged, later, over, under) = (Layer("19_aged_varnish"), Layer("21_later_varnish"), TruthLattice.Mask(folder, "retouching_over_varnish"), TruthLattice.Mask(folder, "retouching_under_varnish"));
        return [.. aged.Select((um, i) => over[i] > 0 || under[i] > 0 ? float.NaN : um + later[i])];
    }
}
