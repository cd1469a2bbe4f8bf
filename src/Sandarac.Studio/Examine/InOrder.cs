namespace Sandarac.Studio.Examine;

/// <summary>Work on several items at once whose results are taken in the items' order: faster, and the outcome does not depend on who was first.</summary>
internal static class InOrder
{
    /// <summary>Works ahead on at most <paramref name="ahead"/> items, so that memory stays bounded.</summary>
    /// <param name="items">The items.</param>
    /// <param name="ahead">Items worked on at once, at least 1.</param>
    /// <param name="work">May run on any thread.</param>
    /// <param name="take">Runs on the caller's thread, in order.</param>
    /// <param name="cancellation">Stops before the next item; work under way is waited for.</param>
    public static void Run<TItem, TResult>(IEnumerable<TItem> items, int ahead, Func<TItem, TResult> work, Action<TItem, TResult> take, CancellationToken cancellation)
    {
        Queue<(TItem Item, Task<TResult> Task)> underWay = [];
        try
        {
            foreach (var item in items)
            {
                cancellation.ThrowIfCancellationRequested();
                underWay.Enqueue((item, Task.Run(() => work(item), CancellationToken.None)));
                if (underWay.Count >= ahead) Take();
            }
            while (underWay.Count > 0) Take();
        }
        finally
        {
            Task.WhenAll(underWay.Select(u => u.Task)).ContinueWith(t => t.Exception, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).Wait(CancellationToken.None);
        }

        void Take()
        {
            var (item, task) = underWay.Dequeue();
            take(item, task.GetAwaiter().GetResult());
        }
    }
}
