namespace Sandarac.Analysis.Quality;

/// <summary>The highest of many values, without keeping the others.</summary>
/// <param name="most">How many are kept, at least 1.</param>
internal sealed class HighestValues(int most)
{
    private readonly PriorityQueue<float, float> _kept = new(most);

    /// <summary>Values that were added.</summary>
    public int Count { get; private set; }

    /// <summary>Adds a value; NaN is not one.</summary>
    public void Add(float value)
    {
        Count++;
        if (_kept.Count < most) _kept.Enqueue(value, value);
        else if (value > _kept.Peek()) _kept.EnqueueDequeue(value, value);
    }

    /// <summary>The value that so many others exceed or equal; fewer than are kept. Takes the lower ones away.</summary>
    public float Exceeded(int by)
    {
        while (_kept.Count > by + 1) _kept.Dequeue();
        return _kept.Peek();
    }
}
