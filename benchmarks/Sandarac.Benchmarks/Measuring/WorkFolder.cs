namespace Sandarac.Benchmarks.Measuring;

/// <summary>A folder in the system's temporary place that is gone afterwards.</summary>
internal sealed class WorkFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("sandarac-bench-").FullName;

    public void Dispose() => Directory.Delete(Path, true);
}
