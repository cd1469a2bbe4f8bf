using Sandarac.Cli.Demo;
using Sandarac.Specimen;
using Sandarac.Studio;

namespace Sandarac.Cli.Tests;

/// <summary>A small specimen, examined once by its corners, and the decisions told on a copy of its studio; a test that writes does so on a copy of its own.</summary>
public sealed class ExaminedSpecimen : IDisposable
{
    private readonly TemporaryFolder _folder = new(), _told = new();

    public ExaminedSpecimen()
    {
        string[] files = ["VIS_01.tif", "UVL_01.tif", "IR_01.tif", "XR_plate1.tif", "XR_plate4.tif", "XSEC_S1_VIS.tif", "XSEC_S1_UV.tif", "XSEC_S2_VIS.tif", "XSEC_S2_UV.tif"];
        SpecimenDrawing.Draw(new SpecimenSettings(40, OnlyPhotographs: files), _folder["specimen"], null, TestContext.Current.CancellationToken);
        using var studio = OpenStudio.At(_folder["studio"]);
        var options = new ExamineOptions { Title = SpecimenPainting.Title, Technique = SpecimenPainting.Technique, HeightMm = SpecimenPainting.HeightMm, WidthMm = SpecimenPainting.WidthMm, CornersOnly = true };
        PaintingId = new Examining(studio).Examine(Path.Combine(_folder["specimen"], "photographs"), options, null, TestContext.Current.CancellationToken).Painting.Id;
        Told = Copy(_told);
        Story.Write(Told, PaintingId, (_, _) => { }, TestContext.Current.CancellationToken);
    }

    public Guid PaintingId { get; }

    /// <summary>With the decisions, to be read only.</summary>
    internal OpenStudio Told { get; }

    /// <summary>A studio of its own, examined.</summary>
    internal OpenStudio Copy(TemporaryFolder target) => Copy(_folder["studio"], target);

    /// <summary>A studio of its own, with the decisions.</summary>
    internal OpenStudio CopyOfTold(TemporaryFolder target) => Copy(_told.Path, target);

    public void Dispose()
    {
        Told.Dispose();
        _told.Dispose();
        _folder.Dispose();
    }

    private static OpenStudio Copy(string from, TemporaryFolder target)
    {
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var copy = target[Path.GetRelativePath(from, file)];
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
        return OpenStudio.At(target.Path);
    }
}
