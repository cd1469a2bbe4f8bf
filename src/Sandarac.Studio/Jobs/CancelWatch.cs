using Microsoft.EntityFrameworkCore;

namespace Sandarac.Studio.Jobs;

/// <summary>Carries a run's progress into the record and a person's wish to stop it out of the record, twice a second, whatever process it came from.</summary>
internal sealed class CancelWatch : IProgress<double>, IDisposable
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(0.5);
    private readonly OpenStudio _studio;
    private readonly Guid _runId;
    private readonly IProgress<double>? _next;
    private readonly CancellationTokenSource _stop;
    private readonly ITimer _timer;
    private readonly Lock _looking = new();
    private double _done;

    public CancelWatch(OpenStudio studio, Guid runId, IProgress<double>? next, CancellationToken outer)
    {
        (_studio, _runId, _next) = (studio, runId, next);
        _stop = CancellationTokenSource.CreateLinkedTokenSource(outer);
        _timer = studio.Clock.CreateTimer(_ => Look(), null, Interval, Interval);
    }

    public CancellationToken Token => _stop.Token;

    /// <summary>Whether a person asked for it; otherwise the program is ending.</summary>
    public bool WasAsked { get; private set; }

    public void Report(double value)
    {
        Volatile.Write(ref _done, value);
        _next?.Report(value);
    }

    /// <summary>After this returns nothing is written to the run any more.</summary>
    public void Dispose()
    {
        _timer.Dispose();
        lock (_looking) _stop.Dispose();
    }

    private void Look()
    {
        if (!_looking.TryEnter()) return;
        try
        {
            using var db = _studio.CreateDb();
            db.Runs.Where(r => r.Id == _runId).ExecuteUpdate(set => set.SetProperty(r => r.Progress, Volatile.Read(ref _done)));
            if (!db.Runs.Any(r => r.Id == _runId && r.CancelRequested)) return;
            WasAsked = true;
            _stop.Cancel();
        }
        catch (Exception e) when (e is System.Data.Common.DbException or ObjectDisposedException or DbUpdateException)
        {
            // A busy database is asked again half a second later; the run itself does not depend on this.
        }
        finally
        {
            _looking.Exit();
        }
    }
}
