using System.Numerics;
using Plane = Sandarac.Imaging.Plane;

namespace Sandarac.Analysis.Relief;

/// <summary>
/// Normal and albedo of each pixel from photographs under known lamps: Lambert's law (Woodham, Optical Engineering 19 (1980) 139), lamps in shadow left out, the others fitted by least
/// absolute residuals (iteratively reweighted least squares, as the L1 baseline of Ikehata, Wipf, Matsushita and Aizawa, CVPR 2012, 318), so that gloss in one or two photographs does not count.
/// </summary>
/// <remarks>
/// A lamp is in shadow where its light is less than a tenth of the second brightest lamp's, for the brightest may be gloss (after Barsky and Petrou, IEEE PAMI 25 (2003) 1239, who leave out what is darkest). NaN in a photograph is
/// light that is not known: outside of it, or clipped. Each pass solves for a correction from residuals, so that float32 holds the normal to some 1e-7.
/// </remarks>
public static class PhotometricStereo
{
    /// <summary>Share of the second brightest lamp's light below which a lamp counts as hidden.</summary>
    private const float Shadow = 0.1f;

    /// <summary>Residuals below this share of the albedo weigh alike: they are noise, not gloss.</summary>
    private const float Noise = 1e-2f;

    /// <summary>Reweighted passes: after eight the normals lie on the mean 0.002 degrees from where twenty leave them on the specimen, 0.07 on a real matte sphere whose light fits Lambert's law to some degrees only.</summary>
    private const int Passes = 8;

    /// <summary>The surface of a window.</summary>
    /// <param name="light">For each lamp the light of the window, linear; all of one size.</param>
    /// <param name="lamps">The lamps, in the same order.</param>
    /// <param name="left">The window's first column, for near lamps.</param>
    /// <param name="top">Its first row.</param>
    /// <param name="robust">False for plain least squares over all lamps, the baseline.</param>
    public static SurfaceNormals Solve(IReadOnlyList<Plane> light, LampSet lamps, int left = 0, int top = 0, bool robust = true)
    {
        if (light.Count != lamps.Lamps.Count) throw new ArgumentException($"{light.Count} photographs and {lamps.Lamps.Count} lamps.", nameof(light));
        var result = SurfaceNormals.Empty(light[0].Width, light[0].Height);
        var (count, lanes) = (result.X.Data.Length, Vector<float>.Count);
        var fit = new PixelFit(lamps, result.X.Width, left, top, robust);
        for (var i = 0; i < count; i += lanes)
        {
            var at = Math.Min(i, Math.Max(0, count - lanes));
            if (count < lanes) fit.LoadFew(light, count);
            else fit.Load(light, at);
            fit.Run();
            fit.Store(result, at, Math.Min(lanes, count));
        }
        return result;
    }

    /// <summary>The fit of as many pixels as a vector has lanes.</summary>
    private sealed class PixelFit
    {
        private readonly LampSet _lamps;
        private readonly (int Width, int Left, int Top) _window;
        private readonly bool _robust;
        private readonly Vector<float>[] _light, _use, _weight, _rowX, _rowY, _rowZ;
        private Vector<float> _x, _y, _z, _confidence;

        public PixelFit(LampSet lamps, int width, int left, int top, bool robust)
        {
            (_lamps, _window, _robust) = (lamps, (width, left, top), robust);
            Vector<float>[] Room() => new Vector<float>[lamps.Lamps.Count];
            (_light, _use, _weight, _rowX, _rowY, _rowZ) = (Room(), Room(), Room(), Room(), Room(), Room());
            PlaceLamps(0);
        }

        public void Load(IReadOnlyList<Plane> light, int at)
        {
            for (var k = 0; k < _light.Length; k++) _light[k] = new Vector<float>(light[k].Data, at);
            if (_lamps.IsNear) PlaceLamps(at);
        }

        public void LoadFew(IReadOnlyList<Plane> light, int count)
        {
            for (var k = 0; k < _light.Length; k++)
                for (var j = 0; j < Vector<float>.Count; j++) _light[k] = _light[k].WithElement(j, j < count ? light[k].Data[j] : float.NaN);
        }

        private void PlaceLamps(int at)
        {
            Span<float> x = stackalloc float[Vector<float>.Count], y = stackalloc float[Vector<float>.Count], z = stackalloc float[Vector<float>.Count];
            for (var k = 0; k < _light.Length; k++)
            {
                for (var j = 0; j < Vector<float>.Count; j++)
                {
                    var row = _lamps.Row(k, _window.Left + (at + j) % _window.Width, _window.Top + (at + j) / _window.Width);
                    (x[j], y[j], z[j]) = ((float)row.X, (float)row.Y, (float)row.Z);
                }
                (_rowX[k], _rowY[k], _rowZ[k]) = (new Vector<float>(x), new Vector<float>(y), new Vector<float>(z));
            }
        }

        public void Run()
        {
            Choose();
            (_x, _y, _z) = (Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
            _use.CopyTo(_weight, 0);
            Correct();
            // The second pass with the same weights takes away what rounding left of the first.
            Correct();
            for (var pass = 0; _robust && pass < Passes; pass++)
            {
                Reweigh();
                Correct();
            }
            Judge();
        }

        public void Store(SurfaceNormals into, int at, int count)
        {
            var albedo = Vector.SquareRoot(_x * _x + _y * _y + _z * _z);
            var known = Vector.GreaterThan(_z, Vector<float>.Zero) & Vector.GreaterThan(_confidence, new Vector<float>(-1));
            Put(into.X, _x / albedo);
            Put(into.Y, _y / albedo);
            Put(into.Albedo, albedo);
            Put(into.Confidence, _confidence);

            void Put(Plane plane, Vector<float> value)
            {
                var kept = Vector.ConditionalSelect(known, value, new Vector<float>(float.NaN));
                if (count == Vector<float>.Count) kept.CopyTo(plane.Data, at);
                else
                    for (var j = 0; j < count; j++) plane.Data[j] = kept[j];
            }
        }

        /// <summary>Which lamps reach the pixels: known light, no shadow.</summary>
        private void Choose()
        {
            var (brightest, second) = (Vector<float>.Zero, Vector<float>.Zero);
            foreach (var light in _light)
            {
                var e = Vector.ConditionalSelect(Vector.Equals(light, light), light, Vector<float>.Zero);
                second = Vector.Max(second, Vector.Min(brightest, e));
                brightest = Vector.Max(brightest, e);
            }
            var limit = _robust ? second * Shadow : new Vector<float>(float.NegativeInfinity);
            for (var k = 0; k < _light.Length; k++)
            {
                var known = Vector.Equals(_light[k], _light[k]);
                _light[k] = Vector.ConditionalSelect(known, _light[k], Vector<float>.Zero);
                _use[k] = Vector.ConditionalSelect(known & Vector.GreaterThan(_light[k], limit), Vector<float>.One, Vector<float>.Zero);
            }
        }

        /// <summary>Solves the weighted normal equations for what is missing (Cramer's rule for a symmetric 3 x 3 matrix).</summary>
        private void Correct()
        {
            Vector<float> xx = default, xy = default, xz = default, yy = default, yz = default, zz = default, bx = default, by = default, bz = default;
            for (var k = 0; k < _light.Length; k++)
            {
                var (x, y, z) = (_rowX[k], _rowY[k], _rowZ[k]);
                var (w, r) = (_weight[k], Residual(k));
                var (wx, wy, wz) = (w * x, w * y, w * z);
                (xx, xy, xz) = (xx + wx * x, xy + wx * y, xz + wx * z);
                (yy, yz, zz) = (yy + wy * y, yz + wy * z, zz + wz * z);
                (bx, by, bz) = (bx + wx * r, by + wy * r, bz + wz * r);
            }
            var (cxx, cxy, cxz) = (yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy);
            var (cyy, cyz, czz) = (xx * zz - xz * xz, xy * xz - xx * yz, xx * yy - xy * xy);
            var inverse = Vector<float>.One / (xx * cxx + xy * cxy + xz * cxz);
            _x += (cxx * bx + cxy * by + cxz * bz) * inverse;
            _y += (cxy * bx + cyy * by + cyz * bz) * inverse;
            _z += (cxz * bx + cyz * by + czz * bz) * inverse;
        }

        private void Reweigh()
        {
            var floor = Vector.SquareRoot(_x * _x + _y * _y + _z * _z) * Noise;
            for (var k = 0; k < _light.Length; k++) _weight[k] = _use[k] * floor / Vector.Max(floor, Vector.Abs(Residual(k)));
        }

        /// <summary>Confidence; -1 where fewer than three lamps are usable or the usable ones leave the normal open.</summary>
        private void Judge()
        {
            Vector<float> used = default, left = default, all = default;
            for (var k = 0; k < _light.Length; k++)
            {
                used += _use[k];
                left += _use[k] * Vector.Abs(Residual(k));
                all += _use[k] * Vector.Abs(_light[k]);
            }
            var share = Vector.Max(Vector<float>.Zero, Vector<float>.One - left / all) * (used - new Vector<float>(2)) / new Vector<float>(_light.Length - 2);
            var enough = Vector.GreaterThanOrEqual(used, new Vector<float>(LampSet.Fewest)) & Vector.Equals(share, share) & Vector.LessThan(Vector.Abs(_x) + Vector.Abs(_y) + Vector.Abs(_z), new Vector<float>(float.MaxValue));
            _confidence = Vector.ConditionalSelect(enough, share, new Vector<float>(-1));
        }

        private Vector<float> Residual(int k) => _light[k] - (_x * _rowX[k] + _y * _rowY[k] + _z * _rowZ[k]);
    }
}
