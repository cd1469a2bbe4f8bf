using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Declaring;

/// <summary>What to run on bare files.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Images">"FILE" or "slot=FILE". Files without a slot fill the slots in the declaration's order.</param>
/// <param name="Parameters">Values as text by parameter name.</param>
/// <param name="MmPerPixel">Scale of all images, when given; otherwise each file's resolution tags count.</param>
/// <param name="OutFolder">Folder to make; it must not exist yet, or be empty.</param>
public sealed record BareRequest(Reading Reading, IReadOnlyList<string> Images, IReadOnlyDictionary<string, string> Parameters, double? MmPerPixel, string OutFolder);

/// <summary>Runs a reading on files without a studio: rasters as float32 TIFF with a PNG beside each, and <c>figures.json</c>. All of it appears, or nothing.</summary>
public static class BareRun
{
    private static readonly JsonSerializerOptions Json = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        // The file is read by programs and people, not put into a page: umlauts stay umlauts.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Runs and writes.</summary>
    /// <param name="request">What to run.</param>
    /// <param name="progress">Hears how far the run is, 0 to 1; may be null.</param>
    /// <param name="cancellation">Cancels; nothing is left then.</param>
    /// <exception cref="InputProblem">An image, a parameter, the scale or the output folder is wrong.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static BareResult Execute(BareRequest request, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var declaration = request.Reading.Declaration;
        var arguments = Arguments.Resolve(declaration, request.Parameters);
        if (request.MmPerPixel is { } mm && !(mm > 0 && double.IsFinite(mm))) throw new InputProblem("scale", "scale-mm-per-px", $"{mm} is not a scale.", "Give the millimetres that a pixel covers, greater than 0.");
        var target = Path.GetFullPath(request.OutFolder);
        if (Directory.Exists(target) ? Directory.EnumerateFileSystemEntries(target).Any() : File.Exists(target))
            throw new InputProblem("out-exists", request.OutFolder, $"{request.OutFolder} exists and is not empty.", "Name a new folder.");
        var temporary = $"{target}.part-{Guid.NewGuid():N}";
        var inputs = Open(declaration, request);
        try
        {
            Directory.CreateDirectory(temporary);
            var result = Run(request.Reading, arguments, inputs, temporary, progress, cancellation);
            if (Directory.Exists(target)) Directory.Delete(target);
            Directory.Move(temporary, target);
            return result;
        }
        finally
        {
            foreach (var image in inputs.Values.SelectMany(i => i)) image.Image.Dispose();
            if (Directory.Exists(temporary)) Directory.Delete(temporary, recursive: true);
        }
    }

    /// <summary>The result as JSON, as in <c>figures.json</c>.</summary>
    public static string ToJson(BareResult result) => JsonSerializer.Serialize(result, Json);

    private static BareResult Run(Reading reading, Arguments arguments, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs, string folder,
        IProgress<double>? progress, CancellationToken cancellation)
    {
        var (declaration, started) = (reading.Declaration, DateTime.UtcNow);
        using var context = new BareContext(declaration, arguments, inputs, folder, progress, cancellation);
        var outcome = reading.Run(context);
        var rasters = context.Complete(outcome.NoAnswer is null);
        var result = new BareResult(RunRecord.Of(declaration, arguments, inputs), started, DateTime.UtcNow, outcome.NoAnswer,
            [.. outcome.Figures.Select(f => Text(declaration, f))], outcome.Warnings,
            [.. outcome.Candidates.Select(c => new CandidateText(c.Kind, c.Confidence, c.Reason, c.Geometry.AsText()))], rasters);
        File.WriteAllText(Path.Combine(folder, "figures.json"), ToJson(result) + "\n");
        cancellation.ThrowIfCancellationRequested();
        return result;
    }

    private static FigureText Text(Declaration declaration, Figure f)
    {
        var output = declaration.Figures.FirstOrDefault(o => o.Name == f.Name) ?? throw new InvalidOperationException($"The figure {f.Name} is not declared.");
        return new FigureText(f.Name, output.Title, f.Subject, f.Value, f.Uncertainty, output.Unit, f.Note);
    }

    private static Dictionary<string, IReadOnlyList<InputImage>> Open(Declaration declaration, BareRequest request)
    {
        var paths = Assign(declaration, request.Images);
        var opened = new Dictionary<string, IReadOnlyList<InputImage>>();
        try
        {
            foreach (var (slot, files) in paths)
            {
                var images = new List<InputImage>();
                opened[slot] = images;
                foreach (var file in files) images.Add(Open(file, request.MmPerPixel));
            }
            return opened;
        }
        catch
        {
            foreach (var image in opened.Values.SelectMany(i => i)) image.Image.Dispose();
            throw;
        }
    }

    private static InputImage Open(string file, double? mmPerPixel)
    {
        var image = ImageFile.Open(file);
        var scale = mmPerPixel is { } mm ? new PixelScale(mm, ScaleOrigin.Assumed) : image.Facts.Scale;
        // Only a name that says so for certain may turn an image away from a slot.
        var guess = LightGuess.From(Path.GetFileName(file), image.Facts.Description);
        return new InputImage(Path.GetFileName(file), image, guess.Confidence == Confidence.Certain ? guess.Light : null, scale, HashOf(file))
        {
            Lamp = LampAngles.Of(guess.AzimuthDegrees, guess.Side, guess.ElevationDegrees),
        };
    }

    private static string HashOf(string file)
    {
        using var stream = File.OpenRead(file);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    /// <summary>Files by slot: named ones first, then the rest into the slots in order, each up to its minimum (at least one), what is left over into the last.</summary>
    private static Dictionary<string, List<string>> Assign(Declaration declaration, IReadOnlyList<string> images)
    {
        var slots = declaration.Inputs.ToDictionary(s => s.Name, _ => new List<string>());
        var rest = new Queue<string>();
        foreach (var image in images)
        {
            var at = image.IndexOf('=', StringComparison.Ordinal);
            if (at > 0 && !File.Exists(image))
            {
                if (!slots.TryGetValue(image[..at], out var named))
                    throw new InputProblem("unknown-input", image[..at], $"{declaration.Id} has no input \"{image[..at]}\".", Suggestion.Remedy(image[..at], slots.Keys, "input"));
                named.Add(image[(at + 1)..]);
            }
            else rest.Enqueue(image);
        }
        foreach (var slot in declaration.Inputs)
            while (rest.Count > 0 && slots[slot.Name].Count < Math.Max(1, slot.Minimum)) slots[slot.Name].Add(rest.Dequeue());
        while (rest.Count > 0) slots[declaration.Inputs[^1].Name].Add(rest.Dequeue());
        return slots;
    }
}
