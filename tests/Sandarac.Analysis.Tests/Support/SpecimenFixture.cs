using System.Text.Json;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

[assembly: AssemblyFixture(typeof(SpecimenFixture))]

namespace Sandarac.Analysis.Tests.Support;

/// <summary>The specimen, drawn once for all tests when the first asks for it; only tests open its truth.</summary>
public sealed class SpecimenFixture : IDisposable
{
    private readonly Lazy<string> _folder = new(() =>
    {
        var folder = Directory.CreateTempSubdirectory("sandarac-specimen-").FullName;
        SpecimenDrawing.Draw(new SpecimenSettings(60, WithCsv: true), folder, cancellation: CancellationToken.None);
        return folder;
    });

    /// <summary>Path of a photograph.</summary>
    public string Photograph(string name) => Path.Combine(_folder.Value, "photographs", name);

    /// <summary>True corners of the face, upper left first and clockwise, pixels.</summary>
    public Point2[] Corners(string name) =>
        [.. Truth(name).GetProperty("corners").EnumerateArray().Select(c => new Point2(c[0].GetDouble(), c[1].GetDouble()))];

    /// <summary>What is true of a photograph.</summary>
    public JsonElement Truth(string name)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(_folder.Value, "truth", "poses.json")));
        return document.RootElement.GetProperty("photographs").EnumerateArray().Single(p => p.GetProperty("file").GetString() == name).Clone();
    }

    public void Dispose()
    {
        if (_folder.IsValueCreated) Directory.Delete(_folder.Value, recursive: true);
    }
}
