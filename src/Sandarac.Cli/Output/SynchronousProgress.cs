namespace Sandarac.Cli.Output;

/// <summary>Hands reports on at once: <see cref="Progress{T}"/> would post them to the thread pool, out of order.</summary>
internal sealed class SynchronousProgress<T>(Action<T> report) : IProgress<T>
{
    public void Report(T value) => report(value);
}
