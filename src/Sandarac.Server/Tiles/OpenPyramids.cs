using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Server.Tiles;

/// <summary>Pyramid files kept open between requests, the least recently used let go beyond a number. One handle serves any number of threads.</summary>
/// <remarks>A file let go may still be read by a request under way; its handle closes by itself when the last reader has dropped it.</remarks>
internal sealed class OpenPyramids
{
    private const int MostOpen = 128;
    private readonly Dictionary<string, LinkedListNode<PyramidFile>> _byPath = [];
    private readonly LinkedList<PyramidFile> _byUse = [];
    private readonly Lock _gate = new();

    /// <summary>The pyramid in a file.</summary>
    /// <exception cref="InputProblem">"object-missing", "object-damaged".</exception>
    public PyramidFile Open(string path)
    {
        lock (_gate)
        {
            if (_byPath.TryGetValue(path, out var node)) _byUse.Remove(node);
            else node = _byPath[path] = new LinkedListNode<PyramidFile>(OpenFile(path));
            _byUse.AddFirst(node);
            if (_byUse.Count > MostOpen) LetGo(_byUse.Last!);
            return node.Value;
        }
    }

    private void LetGo(LinkedListNode<PyramidFile> node)
    {
        _byUse.Remove(node);
        _byPath.Remove(node.Value.Path);
    }

    private static PyramidFile OpenFile(string path)
    {
        try
        {
            return PyramidFile.Open(path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new InputProblem("object-missing", Path.GetFileName(path), "A picture is missing from the studio's store.",
                "`sandarac check` lists what is missing; examine the photographs again to make it anew.", e);
        }
        catch (InvalidDataException e)
        {
            throw new InputProblem("object-damaged", Path.GetFileName(path), "A picture in the studio's store is damaged.",
                "`sandarac check` lists what is damaged; restore it from a copy.", e);
        }
    }
}
