namespace Sandarac.Imaging.Tests;

/// <summary>A folder of its own for a test, deleted afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("sandarac-test-").FullName;

    public string this[string name] => Path.Combine(_path, name);

    public string[] Files => [.. Directory.EnumerateFiles(_path, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(_path, f)).Order()];

    public static implicit operator string(TemporaryFolder folder) => folder._path;

    public void Dispose() => Directory.Delete(_path, recursive: true);
}
