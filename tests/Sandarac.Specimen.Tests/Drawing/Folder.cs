namespace Sandarac.Specimen.Tests.Drawing;

/// <summary>A folder of its own for a test, deleted afterwards.</summary>
internal sealed class Folder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("sandarac-specimen-").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
