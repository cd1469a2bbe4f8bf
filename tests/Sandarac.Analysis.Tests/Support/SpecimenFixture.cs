using System.Text.Json;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

[assembly: AssemblyFixture(typeof(SpecimenFixture))]
[assembly: AssemblyFixture(typeof(DetailedSpecimenFixture))]

namespace Sandarac.Analysis.Tests.Support;

/// <summary>The specimen, all its photographs, 60 pixels an inch.</summary>
public sealed class SpecimenFixture() : DrawnSpecimen(new SpecimenSettings(60, WithCsv: true));

/// <summary>A few lights at the demo's resolution: at full size the paint has more lines of its own.</summary>
public sealed class DetailedSpecimenFixture() : DrawnSpecimen(new SpecimenSettings(150, OnlyPhotographs: ["VIS_01.tif", "IR_01.tif", "RAK_S_az180_el15.tif"]));

/// <summary>A specimen, drawn once for all tests when the first asks for it; only tests open its truth.</summary>
public abstract class DrawnSpecimen(SpecimenSettings settings) : IDisposable
{
    private readonly Lazy<string> _folder = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("sandarac-specimen-").FullName;
        SpecimenDrawing.Draw(settings, folder, cancellation: CancellationToken.None);
        return folder;
    });

    /// <summary>Path of a photograph.</summary>
    public string Photograph(string name) => Path.Combine(_folder.Value, "photographs", name);

    /// <summary>The folder it is drawn in.</summary>
    public string Folder => _folder.Value;

    /// <summary>True corners of the face, upper left first and clockwise, pixels.</summary>
    public Point2[] Corners(string name) =>
        [.. Truth(name).GetProperty("corners").EnumerateArray().Select(c => new Point2(c[0].GetDouble(), c[1].GetDouble()))];

    /// <summary>What is true of a photograph.</summary>
    public JsonElement Truth(string name)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(_folder.Value, "truth", "poses.json")));
        return document.RootElement.GetProperty("photographs").EnumerateArray().Single(p => p.GetProperty("file").GetString() == name).Clone();
    }

    /// <summary>The true map of a photograph, lens included.</summary>
    public HomographyMap TrueMap(string name)
    {
        var pose = Truth(name);
        double[] Numbers(string field) => [.. pose.GetProperty(field).EnumerateArray().Select(v => v.GetDouble())];
        var centre = Numbers("centre");
        return new HomographyMap(Numbers("pixelToPlane"), new Point2(centre[0], centre[1]), pose.GetProperty("radius").GetDouble(), pose.GetProperty("k1").GetDouble(), pose.GetProperty("k2").GetDouble());
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        if (_folder.IsValueCreated) Directory.Delete(_folder.Value, recursive: true);
    }
}
