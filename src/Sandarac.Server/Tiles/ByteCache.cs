using System.Diagnostics.CodeAnalysis;

namespace Sandarac.Server.Tiles;

/// <summary>Byte arrays by key, the least recently used dropped when they are more than so many bytes together.</summary>
internal sealed class ByteCache<TKey>(long maxBytes) where TKey : notnull
{
    private readonly Dictionary<TKey, LinkedListNode<(TKey Key, byte[] Value)>> _byKey = [];
    private readonly LinkedList<(TKey Key, byte[] Value)> _byUse = [];
    private readonly Lock _gate = new();
    private long _bytes;

    /// <summary>Bytes held.</summary>
    public long Bytes
    {
        get { lock (_gate) return _bytes; }
    }

    public bool TryGet(TKey key, [NotNullWhen(true)] out byte[]? value)
    {
        lock (_gate)
        {
            value = null;
            if (!_byKey.TryGetValue(key, out var node)) return false;
            _byUse.Remove(node);
            _byUse.AddFirst(node);
            value = node.Value.Value;
            return true;
        }
    }

    /// <summary>Keeps a value; one that is larger than the whole cache is not kept.</summary>
    public void Add(TKey key, byte[] value)
    {
        lock (_gate)
        {
            if (value.Length > maxBytes || _byKey.ContainsKey(key)) return;
            _byKey[key] = _byUse.AddFirst((key, value));
            _bytes += value.Length;
            while (_bytes > maxBytes) Drop(_byUse.Last!);
        }
    }

    private void Drop(LinkedListNode<(TKey Key, byte[] Value)> node)
    {
        _byUse.Remove(node);
        _byKey.Remove(node.Value.Key);
        _bytes -= node.Value.Value.Length;
    }
}
