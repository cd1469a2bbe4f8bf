using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>What a reading shall do: parameters by name (defaults fill the rest), photographs for each input.</summary>
internal sealed record RunAsk(string? Reading, IReadOnlyDictionary<string, JsonElement>? Parameters, IReadOnlyDictionary<string, IReadOnlyList<Guid>>? Inputs);

/// <summary>Runs of readings.</summary>
internal static class RunsApi
{
    /// <summary>The operation whose body <see cref="ReadingSchemas"/> describes from the readings' declarations.</summary>
    public const string StartOperation = "startRun";

    public static void MapRuns(this RouteGroupBuilder api)
    {
        api.MapGet("/paintings/{id:guid}/runs", Of).WithSummary("A painting's runs, newest first; of one reading if asked");
        api.MapPost("/paintings/{id:guid}/runs", Start).WithName(StartOperation)
            .WithSummary("Runs a reading; the same reading with the same inputs and parameters is not run twice").Produces<RunAsked>(StatusCodes.Status202Accepted);
        api.MapGet("/paintings/{id:guid}/inputs", (Guid id, string reading, OpenStudio studio) => new SuggestedInputs(studio).Of(id, reading))
            .WithSummary("Photographs of a painting for each input of a reading, best first, with their even boards: what a person need not choose");
        api.MapGet("/runs/{id:guid}", (Guid id, OpenStudio studio) => RunShape.Of(studio.FindRun(id))).WithSummary("One run: progress, figures, provenance");
        api.MapPost("/runs/{id:guid}/cancel", Cancel).WithSummary("Asks a run to stop; nothing of it is kept").Produces<RunShape>(StatusCodes.Status202Accepted);
    }

    private static IReadOnlyList<RunShape> Of(Guid id, OpenStudio studio, string? reading = null)
    {
        studio.FindPainting(id);
        using var db = studio.CreateDb();
        return [.. db.Runs.AsNoTracking().Include(r => r.Rasters).Where(r => r.PaintingId == id && (reading == null || r.ReadingId == reading)).OrderByDescending(r => r.QueuedAt)
            .AsEnumerable().Select(RunShape.Of)];
    }

    private static IResult Start(Guid id, RunAsk ask, OpenStudio studio, JobHost jobs)
    {
        studio.FindPainting(id);
        var parameters = (ask.Parameters ?? new Dictionary<string, JsonElement>()).ToDictionary(p => p.Key, p => AsText(p.Key, p.Value));
        var reading = ask.Reading ?? throw new InputProblem("reading-missing", "reading", "The request names no reading.", "Name one of /api/readings.");
        var run = Ask(studio, jobs, new RunRequest(id, reading, parameters, ask.Inputs ?? new Dictionary<string, IReadOnlyList<Guid>>(),
            Environment.UserName));
        return Results.Accepted($"/api/runs/{run.Id}", new RunAsked(run.Id));
    }

    /// <summary>Queues a run and hands it to the background; one that is there already is only named.</summary>
    public static Run Ask(OpenStudio studio, JobHost jobs, RunRequest request)
    {
        var run = new Running(studio).Queue(request);
        if (run.State == RunState.Queued) jobs.Enqueue(run.Id);
        return run;
    }

    private static IResult Cancel(Guid id, OpenStudio studio)
    {
        studio.FindRun(id);
        new Running(studio).Cancel(id);
        return Results.Accepted($"/api/runs/{id}", RunShape.Of(studio.FindRun(id)));
    }

    private static string AsText(string name, JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => value.GetString()!,
        JsonValueKind.Number or JsonValueKind.Object => value.GetRawText(),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => throw new InputProblem("parameter-value", name, $"The value of {name} is neither a number, a word, a document nor true or false.", "See /api/readings/ID."),
    };
}
