using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Iiif;
using Sandarac.Studio.Record;
using Sandarac.Studio.Walking;

namespace Sandarac.Studio;

/// <summary>What an export made.</summary>
/// <param name="Folder">The folder, full path.</param>
/// <param name="Pictures">Pictures in it.</param>
/// <param name="Steps">Steps of the walk.</param>
/// <param name="Files">Files of pictures in it.</param>
/// <param name="Width">Columns of the canvas.</param>
/// <param name="Height">Rows of the canvas.</param>
/// <param name="Manifest">Address of the manifest, once the folder is served.</param>
/// <param name="Warnings">What whoever publishes it must know.</param>
public sealed record WalkExported(string Folder, int Pictures, int Steps, long Files, int Width, int Height, string Manifest, IReadOnlyList<Warning> Warnings);

/// <summary>
/// Writes a painting, or a walk of it, as a folder that a web server or a file opener shows: a page with deep zoom that needs nothing from elsewhere, and the
/// same as IIIF. Pictures are read and written tile by tile, whatever their size. The folder appears when it is complete.
/// </summary>
/// <param name="studio">The studio.</param>
/// <param name="viewerFolder">Where the built viewer lies: <c>walk.js</c>, <c>walk.css</c>, its licences and fonts.</param>
public sealed class WalkExport(OpenStudio studio, string viewerFolder)
{
    /// <summary>More small files than this no folder should hold; a painting of 2 x 3 m at 600 ppi in a dozen lights has 180,000.</summary>
    private const long MostFiles = 500_000;

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    /// <summary>Writes the folder.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="walk">The walk; null for the painting alone with all its zones.</param>
    /// <param name="folder">A folder that is not there yet, or is empty.</param>
    /// <param name="options">What it is to say of itself.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Cancels; nothing is left behind.</param>
    /// <exception cref="InputProblem">"unknown-painting"; the walk is empty; nothing is on the plane; the folder holds something ("folder-taken"); too many files ("too-many-files"); the viewer is not built ("no-viewer").</exception>
    public WalkExported Write(Guid paintingId, WalkContent? walk, string folder, WalkExportOptions options, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var target = Path.GetFullPath(folder);
        if (File.Exists(target) || (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any()))
            throw new InputProblem("folder-taken", folder, "There is something in the folder already.", "Give a folder that is not there yet.");
        if (!File.Exists(Path.Combine(viewerFolder, "walk.js"))) throw new InputProblem("no-viewer", "walk.js", "This copy of the program was built without its viewer.", "Run 'npm ci' and 'npm run build' in viewer/, and build again.");
        var checkedOptions = options.Checked();
        var plan = WalkPlan.Read(studio, paintingId, walk);
        var canvas = CanvasGrid.Of(plan.Painting, options.LongestSide);
        var files = TileFolder.Files(canvas) * plan.Pictures.Count;
        if (files > MostFiles) throw new InputProblem("too-many-files", folder, FormattableString.Invariant($"This would be {files} files."), "Give a longest side: half of it makes a quarter of the files.");
        var part = $"{target}.part";
        if (Directory.Exists(part)) Directory.Delete(part, recursive: true);
        try
        {
            WritePictures(plan, canvas, part, checkedOptions, new FileCount(files, progress), cancellation);
            WriteTexts(plan, canvas, part, checkedOptions);
            if (Directory.Exists(target)) Directory.Delete(target);
            Directory.Move(part, target);
        }
        catch (IOException e) when (e is not (FileNotFoundException or DirectoryNotFoundException))
        {
            throw new InputProblem("folder-unwritable", folder, $"The folder cannot be written: {e.Message}", "Choose a folder you may write to, on a disk with room.", e);
        }
        finally
        {
            if (Directory.Exists(part)) Directory.Delete(part, recursive: true);
        }
        return new WalkExported(target, plan.Pictures.Count, plan.Steps.Count, files, canvas.Width, canvas.Height, new WalkAddresses(checkedOptions.BaseAddress).Manifest, plan.Warnings);
    }

    private void WritePictures(WalkPlan plan, CanvasGrid canvas, string part, WalkExportOptions options, FileCount count, CancellationToken cancellation)
    {
        var addresses = new WalkAddresses(options.BaseAddress);
        foreach (var picture in plan.Pictures)
        {
            var folder = Path.Combine(part, WalkAddresses.Pictures, picture.Key);
            Directory.CreateDirectory(folder);
            if (picture.Lamp is { } lamp) WriteLit(picture.Layer, lamp, canvas, folder, count, cancellation);
            else studio.Pyramids.Read(picture.Layer.Pyramid.Sha256, file => Write(file, picture.Layer, Window(picture.Layer.Pyramid), canvas, folder, count, cancellation));
            File.WriteAllText(Path.Combine(folder, "info.json"), TileFolder.Information(canvas, addresses.Picture(picture), options.Rights.Length > 0 ? options.Rights : null).ToJsonString(Json));
            count.Add();
        }
    }

    private void WriteLit(Layer normals, StepLamp lamp, CanvasGrid canvas, string folder, FileCount count, CancellationToken cancellation)
    {
        var temporary = studio.Objects.NewTemporaryPath();
        try
        {
            studio.Pyramids.Read(normals.Pyramid.Sha256, file =>
            {
                RelitSurface.Write(file, lamp, temporary, cancellation);
                return 0;
            });
            using var shade = PyramidFile.Open(temporary);
            Write(shade, normals, new ContrastWindow(0, 1), canvas, folder, count, cancellation);
        }
        finally
        {
            File.Delete(temporary);
        }
    }

    private static int Write(PyramidFile file, Layer layer, ContrastWindow window, CanvasGrid canvas, string folder, FileCount count, CancellationToken cancellation)
    {
        TileFolder.Write(new PlanePicture(file, layer.Extent, window, canvas), canvas, folder, count.Add, cancellation);
        return 0;
    }

    /// <summary>As the Easel first shows a layer: colour photographs as they were taken, so that colours can be judged; single bands and readings in the window that suits them.</summary>
    private static ContrastWindow Window(PyramidFacts pyramid) => pyramid is { Bands.Count: >= 3, Format: SampleFormat.UInt8 or SampleFormat.UInt16 } ? new ContrastWindow(0, pyramid.FullScale)
        : new ContrastWindow(pyramid.Low, pyramid.High > pyramid.Low ? pyramid.High : pyramid.Low + 1);

    private void WriteTexts(WalkPlan plan, CanvasGrid canvas, string part, WalkExportOptions options)
    {
        void Save(string name, string text) => File.WriteAllText(Path.Combine(part, name), text);
        Save("manifest.json", new WalkManifest(plan, canvas, options).Make().ToJsonString(Json));
        Save(WalkAddresses.AnnotationsFile, new WalkAnnotations(plan, canvas, new WalkAddresses(options.BaseAddress), isAlone: true).Whole().ToJsonString(Json));
        Save("data.js", $"window.sandaracWalk = {WalkScript.Data(plan, canvas, options).ToJsonString(Json)};\n");
        Save("index.html", WalkPage.Html(plan, canvas, options));
        foreach (var name in (string[])["walk.js", "walk.css", "LICENCES.txt"]) File.Copy(Path.Combine(viewerFolder, name), Path.Combine(part, name));
        foreach (var font in Directory.EnumerateFiles(viewerFolder, "*.woff2")) File.Copy(font, Path.Combine(part, Path.GetFileName(font)));
    }

    /// <summary>Counts files from many threads.</summary>
    private sealed class FileCount(long all, IProgress<double>? progress)
    {
        private long _done;

        public void Add() => progress?.Report(Math.Min(1, Interlocked.Increment(ref _done) / (double)all));
    }
}
