using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Luminescence;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Luminescence;

/// <summary>The reading on the specimen, run once for all tests that look at it.</summary>
public sealed class SpecimenLuminescence : IDisposable
{
    private readonly Lazy<(Outcome, Dictionary<string, Plane[]>)> _with;
    private readonly Lazy<(Outcome, Dictionary<string, Plane[]>)> _without;

    public SpecimenLuminescence(SpecimenFixture specimen)
    {
        Scene = new SpecimenOnPlane(specimen);
        (_with, _without) = (new(() => Run(true)), new(() => Run(false)));
    }

    internal SpecimenOnPlane Scene { get; }

    internal (Outcome Outcome, Dictionary<string, Plane[]> Rasters) WithBoards => _with.Value;

    internal (Outcome Outcome, Dictionary<string, Plane[]> Rasters) WithoutBoards => _without.Value;

    public void Dispose() => Scene.Dispose();

    private (Outcome, Dictionary<string, Plane[]>) Run(bool boards)
    {
        List<(string, InputImage)> images = [("luminescence", Scene.Open("UVL_01.tif", Light.Luminescence)), ("visible", Scene.Open("VIS_01.tif", Light.Visible))];
        if (boards) images.AddRange([("luminescence-board", Scene.Own("UVL_flat.tif", Light.Luminescence)), ("visible-board", Scene.Own("VIS_flat.tif", Light.Visible))]);
        return TestRun.Of(new LuminescenceReading(), images);
    }
}
