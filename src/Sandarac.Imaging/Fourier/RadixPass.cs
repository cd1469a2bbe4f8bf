namespace Sandarac.Imaging.Fourier;

/// <summary>
/// One pass of a mixed-radix transform. With r the radix, sample (i, j, k) of <c>from</c> lies at i + inner (j + r k), of <c>to</c> at
/// i + inner (k + outer j): the pass joins the r samples that differ in j by a transform of length r, turns the j-th by
/// exp(-2 pi i (i j) / (r inner)), and moves j to the slowest place.
/// </summary>
internal sealed unsafe class RadixPass
{
    private readonly int _radix;
    private readonly int _outer;
    private readonly int _inner;
    private readonly Twiddle[] _twiddles;

    public RadixPass(int radix, int outer, int inner)
    {
        (_radix, _outer, _inner) = (radix, outer, inner);
        _twiddles = new Twiddle[(radix - 1) * inner];
        for (var i = 0; i < inner; i++)
            for (var j = 1; j < radix; j++)
                _twiddles[(radix - 1) * i + j - 1] = Twiddle.Root((long)i * j, (long)radix * inner);
    }

    public void Run(Lane* from, Lane* to)
    {
        fixed (Twiddle* w = _twiddles)
        {
            for (var k = 0; k < _outer; k++, from += _inner * _radix, to += _inner)
                Join(from, to, _inner, _inner * _outer, w);
        }
    }

    private void Join(Lane* from, Lane* to, int inner, int step, Twiddle* w)
    {
        switch (_radix)
        {
            case 2: Butterflies.Two(from, to, inner, step, w); break;
            case 3: Butterflies.Three(from, to, inner, step, w); break;
            case 4: Butterflies.Four(from, to, inner, step, w); break;
            case 5: Butterflies.Five(from, to, inner, step, w); break;
            default: Butterflies.Seven(from, to, inner, step, w); break;
        }
    }
}
