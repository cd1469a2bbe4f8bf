using Sandarac.Materials.Cleaning;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>What the tests with solvents say of one layer: which acted on it, which did not, and the round regions that agree with that, in each system by itself. A layer that was softened was acted on.</summary>
public sealed class LayerEvidence
{
    /// <summary>Width of a cell in Hansen space, MPa^0.5: parameters are tabled to a tenth and differ between sources by half a unit and more.</summary>
    public const double HansenStep = 0.5;

    private const double TeasStep = 1;

    /// <summary>Where a centre may lie: what the solvents of the table span.</summary>
    private static readonly Lazy<(double, double)[]> HansenBox = new(() =>
    {
        HansenParameters[] all = [.. SolventTable.All.Select(s => s.Hansen?.Value).OfType<HansenParameters>()];
        return [(all.Min(h => h.Dispersion), all.Max(h => h.Dispersion)), (all.Min(h => h.Polar), all.Max(h => h.Polar)), (all.Min(h => h.Hydrogen), all.Max(h => h.Hydrogen))];
    });

    private LayerEvidence(CleaningDepth layer, IReadOnlyList<TestedAgent> acted, IReadOnlyList<TestedAgent> didNot) => (Layer, Acted, DidNot) = (layer, acted, didNot);

    /// <summary>The layer.</summary>
    public CleaningDepth Layer { get; }

    /// <summary>Tests with solvents that acted on it.</summary>
    public IReadOnlyList<TestedAgent> Acted { get; }

    /// <summary>Tests with solvents after which nothing was seen on it.</summary>
    public IReadOnlyList<TestedAgent> DidNot { get; }

    /// <summary>Regions of Hansen space; distances as Hansen's, dispersion counted twice.</summary>
    public required ConsistentSpheres Hansen { get; init; }

    /// <summary>Regions of the Teas triangle, as it is drawn.</summary>
    public required ConsistentSpheres Teas { get; init; }

    /// <summary>Looks through tests that are done.</summary>
    public static LayerEvidence Of(IEnumerable<CleaningTest> tests, CleaningDepth layer)
    {
        var done = tests.Where(t => t.Content.DoneOn is not null).Select(TestedAgent.Of).Where(t => t.Mixture is not null).ToLookup(t => TestFlags.EffectOn(t.Test.Content, layer));
        TestedAgent[] acted = [.. new[] { TestEffect.Softened, TestEffect.Reduced, TestEffect.Removed }.SelectMany(e => done[e]).OrderBy(t => t.Test.Content.Number)], didNot = [.. done[TestEffect.None]];
        return new LayerEvidence(layer, acted, didNot)
        {
            Hansen = ConsistentSpheres.Of(Places(acted, t => Axes(t.Hansen)), Places(didNot, t => Axes(t.Hansen)), HansenBox.Value, [2, 1, 1], HansenStep),
            Teas = ConsistentSpheres.Of(Places(acted, t => Axes(t.Teas)), Places(didNot, t => Axes(t.Teas)), [(0, 100), (0, 100 * Math.Sqrt(0.75))], [1, 1], TeasStep),
        };
    }

    /// <summary>How a mixture lies to the regions of Hansen space; open when it has no place there.</summary>
    public Belongs InHansen(Mixture mixture) => Axes(mixture.Hansen.Value) is { } place ? Hansen.Of(place) : Belongs.Open;

    /// <summary>How a place lies to the regions of the triangle.</summary>
    public Belongs InTeas(TeasFractions place) => Teas.Of(Axes(place)!);

    private static double[]? Axes(HansenParameters? h) => h is null ? null : [h.Dispersion, h.Polar, h.Hydrogen];

    /// <summary>On paper: one to the right by hydrogen bonds, half of one and up by polar.</summary>
    private static double[]? Axes(TeasFractions? t) => t is null ? null : [t.Hydrogen + t.Polar / 2, t.Polar * Math.Sqrt(0.75)];

    private static double[][] Places(IEnumerable<TestedAgent> tests, Func<TestedAgent, double[]?> axes) => [.. tests.Select(axes).OfType<double[]>()];
}
