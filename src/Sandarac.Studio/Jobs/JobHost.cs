using Hangfire;
using Hangfire.InMemory;
using Hangfire.PostgreSql;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>Carries out queued runs in the background, through Hangfire: in memory on one machine, in PostgreSQL in a laboratory. The run rows are
/// the truth; the queue only says what is next.</summary>
public sealed class JobHost : IDisposable
{
    private readonly BackgroundJobServer _server;
    private readonly BackgroundJobClient _client;

    /// <summary>Starts carrying out runs, those first that were queued when the program last ended.</summary>
    public JobHost(OpenStudio studio)
    {
        JobStorage storage = studio.Postgres is { } postgres
            ? new PostgreSqlStorage(new Hangfire.PostgreSql.Factories.NpgsqlConnectionFactory(postgres, Options()), Options())
            : new InMemoryStorage();
        _client = new BackgroundJobClient(storage);
        // One run at a time: a run uses every processor by itself.
        _server = new BackgroundJobServer(new BackgroundJobServerOptions { WorkerCount = 1, Activator = new Activator(studio), SchedulePollingInterval = TimeSpan.FromSeconds(1) }, storage);
        using var db = studio.CreateDb();
        // A run that the queue still holds is queued twice then; the second one to start finds it taken.
        foreach (var id in db.Runs.Where(r => r.State == RunState.Queued).OrderBy(r => r.QueuedAt).Select(r => r.Id).ToList()) Enqueue(id);
    }

    /// <summary>Puts a queued run in the queue.</summary>
    public void Enqueue(Guid runId) => _client.Create<RunJob>(job => job.Execute(runId, CancellationToken.None), new Hangfire.States.EnqueuedState());

    /// <summary>Stops taking runs and those under way; these become queued again, for the next start.</summary>
    public void Dispose() => _server.Dispose();

    // Sliding: a run that takes longer than the timeout is not started a second time while it lives.
    private static PostgreSqlStorageOptions Options() => new() { UseSlidingInvisibilityTimeout = true, QueuePollInterval = TimeSpan.FromSeconds(1) };

    private sealed class Activator(OpenStudio studio) : JobActivator
    {
        public override object ActivateJob(Type jobType) => new RunJob(studio);
    }
}

/// <summary>The job's body. Public because the queue calls it by name.</summary>
public sealed class RunJob(OpenStudio studio)
{
    /// <summary>Carries out a run; how it ends is stored with it, so the queue has nothing to retry.</summary>
    [AutomaticRetry(Attempts = 0)]
    public void Execute(Guid runId, CancellationToken cancellation)
    {
        var running = new Running(studio);
        running.Execute(runId, cancellation: cancellation);
        if (cancellation.IsCancellationRequested) running.Requeue(runId);
    }
}
