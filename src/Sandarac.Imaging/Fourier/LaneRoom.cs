using System.Runtime.InteropServices;

namespace Sandarac.Imaging.Fourier;

/// <summary>The two work buffers of one thread, on cache-line boundaries. The second starts a few lines off a power of two, so that
/// reading one and writing the other do not compete for the same cache sets.</summary>
internal sealed unsafe class LaneRoom : IDisposable
{
    private const int Alignment = 64;
    private const int Stagger = 17 * Alignment;
    private readonly void* _memory;

    public LaneRoom(int lanes)
    {
        var bytes = (nuint)lanes * (nuint)sizeof(Lane) + Alignment & ~(nuint)(Alignment - 1);
        _memory = NativeMemory.AlignedAlloc(2 * bytes + Stagger, Alignment);
        A = (Lane*)_memory;
        B = (Lane*)((byte*)_memory + bytes + Stagger);
    }

    public Lane* A { get; }

    public Lane* B { get; }

    public void Dispose() => NativeMemory.AlignedFree(_memory);
}
