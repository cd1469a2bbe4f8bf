using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using Spectre.Console;
using Said = Sandarac.Studio.Documents.Words;

namespace Sandarac.Cli.Output;

/// <summary>What an examination found, as a table on standard output.</summary>
internal static class ExaminationTable
{
    public static void Write(Examination examination)
    {
        var p = examination.Painting;
        AnsiConsole.WriteLine($"{p.Title}, {Said.Size(p)} (height x width{Said.Spread(p)}; {Said.Origin(p.SizeOrigin)})");
        var table = new Table().Border(TableBorder.Simple).AddColumns("photograph", "light", "shows", "on the plane", "to know");
        foreach (var photograph in examination.Photographs) table.AddRow([.. Row(photograph).Select(cell => cell.EscapeMarkup())]);
        // A file or a pipe has no width of its own; eighty columns would break every word.
        if (Console.IsOutputRedirected) AnsiConsole.Profile.Width = 200;
        AnsiConsole.Write(table);
        foreach (var run in examination.Runs.Where(r => r.ReadingId is not ("photograph-quality" or "face-corners")))
        {
            AnsiConsole.WriteLine($"Reading {run.ReadingId} {run.ReadingVersion}: {Words(run)}");
            foreach (var warning in run.Warnings) AnsiConsole.WriteLine($"  Note: {warning.Message}");
        }
        foreach (var refusal in examination.Refusals)
            AnsiConsole.WriteLine($"Not imported: {refusal.File}: {refusal.Message} {refusal.Remedy}");
        foreach (var file in examination.AlreadyThere) AnsiConsole.WriteLine($"Already there: {file}");
        foreach (var warning in examination.Warnings) AnsiConsole.WriteLine($"Note: {warning.Message}");
        AnsiConsole.WriteLine($"Document: {examination.DocumentPath}");
    }

    private static IEnumerable<string> Row(Photograph photograph)
    {
        yield return photograph.FileName;
        yield return Light(photograph);
        yield return Said.SubjectOf(photograph);
        yield return photograph.Subject is PhotographSubject.Painting or PhotographSubject.Detail && photograph.Alignments.InForce() is { } alignment ? Words(alignment) : "";
        yield return string.Join(" ", photograph.Warnings.Select(w => w.Message));
    }

    /// <summary>"RAK W"; what is less than certain is said, with its reason.</summary>
    private static string Light(Photograph photograph)
    {
        var light = string.Join(' ', new[] { photograph.Light ?? "unknown", photograph.LightSide }.OfType<string>());
        return photograph.LightConfidence == Confidence.Certain ? light : $"{light}, {photograph.LightConfidence.ToString().ToLowerInvariant()}: {photograph.LightReason}";
    }

    private static string Words(Alignment alignment) => alignment.Verdict switch
    {
        Verdict.NotAligned => $"no: {alignment.Reason}",
        Verdict.Uncertain => $"uncertain: {alignment.Reason}",
        _ when alignment.Residuals?.P95Mm is { } p95 => string.Create(CultureInfo.InvariantCulture, $"yes, within {p95:0.00} mm ({Measured(alignment)})"),
        _ => "yes",
    };

    private static string Measured(Alignment alignment) => alignment switch
    {
        { Residuals.Places: null } => "p95 along the edges",
        { Method: AlignmentMethod.Jointly } => "p95 of the places that tie the parts, not held out",
        { Method: AlignmentMethod.ByPairs } => "p95 of pairs left out in turn",
        _ => "p95 of held-out patches",
    };

    private static string Words(Run run) => run.State switch
    {
        RunState.Done => "done",
        RunState.NoAnswer => $"no answer: {run.NoAnswer}",
        RunState.Failed => $"failed: {run.Problem?.Message}",
        var other => other.ToString().ToLowerInvariant(),
    };
}
