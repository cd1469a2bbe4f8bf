namespace Sandarac.Studio.Jobs;

/// <summary>Carries out queued runs in the background, through Hangfire: in memory on one machine, in PostgreSQL in a laboratory. The run rows are
/// the truth; the queue only says what is next.</summary>
public sealed class JobHost : IDisposable
{
    /// <summary>Starts carrying out runs.</summary>
    public JobHost(OpenStudio studio) => throw new NotImplementedException($"{studio}");

    /// <summary>Puts a queued run in the queue.</summary>
    public void Enqueue(Guid runId) => throw new NotImplementedException($"{runId}");

    /// <summary>Stops taking runs and waits for those under way to stop; they become queued again.</summary>
    public void Dispose() => throw new NotImplementedException();
}
