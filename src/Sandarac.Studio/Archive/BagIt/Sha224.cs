using System.Buffers.Binary;
using System.Numerics;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>SHA-224 of FIPS 180-4: SHA-256 from another start, cut short. The runtime has none, and old bags use it.</summary>
internal sealed class Sha224
{
    private const int BlockBytes = 64;

    private static readonly uint[] K = Constants();

    /// <summary>FIPS 180-4, 5.3.2.</summary>
    private readonly uint[] _h = [0xc1059ed8, 0x367cd507, 0x3070dd17, 0xf70e5939, 0xffc00b31, 0x68581511, 0x64f98fa7, 0xbefa4fa4];

    private readonly byte[] _block = new byte[BlockBytes];
    private int _filled;
    private ulong _bytes;

    public void Append(ReadOnlySpan<byte> bytes)
    {
        _bytes += (ulong)bytes.Length;
        while (bytes.Length > 0)
        {
            var taken = Math.Min(bytes.Length, BlockBytes - _filled);
            bytes[..taken].CopyTo(_block.AsSpan(_filled));
            bytes = bytes[taken..];
            _filled += taken;
            if (_filled == BlockBytes) Compress();
        }
    }

    public byte[] End()
    {
        var bits = _bytes * 8;
        Append([0x80]);
        while (_filled != BlockBytes - 8) Append([0]);
        Span<byte> length = stackalloc byte[8];
        BinaryPrimitives.WriteUInt64BigEndian(length, bits);
        Append(length);
        var digest = new byte[28];
        for (var i = 0; i < 7; i++) BinaryPrimitives.WriteUInt32BigEndian(digest.AsSpan(4 * i), _h[i]);
        return digest;
    }

    /// <summary>FIPS 180-4, 6.2.2.</summary>
    private void Compress()
    {
        Span<uint> w = stackalloc uint[64];
        for (var t = 0; t < 16; t++) w[t] = BinaryPrimitives.ReadUInt32BigEndian(_block.AsSpan(4 * t));
        for (var t = 16; t < 64; t++) w[t] = Sigma(w[t - 2], 17, 19, 10) + w[t - 7] + Sigma(w[t - 15], 7, 18, 3) + w[t - 16];
        var (a, b, c, d, e, f, g, h) = (_h[0], _h[1], _h[2], _h[3], _h[4], _h[5], _h[6], _h[7]);
        for (var t = 0; t < 64; t++)
        {
            var t1 = h + Sum(e, 6, 11, 25) + ((e & f) ^ (~e & g)) + K[t] + w[t];
            var t2 = Sum(a, 2, 13, 22) + ((a & b) ^ (a & c) ^ (b & c));
            (h, g, f, e, d, c, b, a) = (g, f, e, d + t1, c, b, a, t1 + t2);
        }
        uint[] sums = [a, b, c, d, e, f, g, h];
        for (var i = 0; i < 8; i++) _h[i] += sums[i];
        _filled = 0;
    }

    private static uint Sum(uint x, int r, int s, int t) => BitOperations.RotateRight(x, r) ^ BitOperations.RotateRight(x, s) ^ BitOperations.RotateRight(x, t);

    private static uint Sigma(uint x, int r, int s, int shift) => BitOperations.RotateRight(x, r) ^ BitOperations.RotateRight(x, s) ^ (x >> shift);

    /// <summary>The first 32 bits of the fractions of the cube roots of the first 64 primes (FIPS 180-4, 4.2.2), by integer arithmetic.</summary>
    private static uint[] Constants() => [.. Enumerable.Range(2, 310).Where(n => !Enumerable.Range(2, n - 2).Any(d => n % d == 0)).Take(64).Select(p => (uint)(CubeRoot(new BigInteger(p) << 96) & uint.MaxValue))];

    private static BigInteger CubeRoot(BigInteger n)
    {
        var root = BigInteger.Zero;
        for (var bit = 36; bit >= 0; bit--)
            if (BigInteger.Pow(root | (BigInteger.One << bit), 3) <= n) root |= BigInteger.One << bit;
        return root;
    }
}
