using System.Text.Json;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Cameras;

namespace Sandarac.Specimen.Tests.Drawing;

/// <summary>What truth says must be what the photographs show.</summary>
[Collection(nameof(DrawnOnce))]
public class TruthTests(DrawnSpecimen drawn)
{
    [Fact]
    public void Corners_in_poses_map_to_the_planes_corners_and_back()
    {
        foreach (var p in drawn.Json("poses.json").GetProperty("photographs").EnumerateArray())
        {
            var map = drawn.Pose(p.GetProperty("file").GetString()!);
            foreach (var (corner, mm) in p.GetProperty("corners").EnumerateArray().Zip(Pose.PlaneCorners))
            {
                var pixel = new Point2(corner[0].GetDouble(), corner[1].GetDouble());
                Assert.InRange(map.ToPlane(pixel).DistanceTo(mm), 0, 1e-6);
                Assert.InRange(map.ToPixel(mm).DistanceTo(pixel), 0, 1e-6);
            }
        }
    }

    [Fact]
    public void The_face_ends_where_the_pose_says()
    {
        // A strip 2 mm wide inside each edge is brighter than one outside, which no pose that is off by 3 mm would give.
        foreach (var name in new[] { "VIS_01.tif", "UVL_01.tif", "IR_01.tif" })
        {
            Func<double, double, bool>[] inside = [(x, y) => x is > 1 and < 3 && y is > 9 and < 400, (x, y) => x is > 515 and < 517 && y
                is > 9 and < 400, (x, y) => y is > 1 and < 3 && x is > 9 and < 509, (x, y) => y is > 409 and < 411 && x is > 9 and < 509];
            Func<double, double, bool>[] outside = [(x, y) => x is > -3 and < -1 && y is > 9 and < 400, (x, y) => x is > 519 and < 521 && y
                is > 9 and < 400, (x, y) => y is > -3 and < -1 && x is > 9 and < 509, (x, y) => y is > 413 and < 415 && x is > 9 and < 509];
            for (var edge = 0; edge < 4; edge++) Assert.True(drawn.Mean(name, null, 0, inside[edge]) > 1.5
                * drawn.Mean(name, null, 0, outside[edge]), $"{name}, edge {edge}");
        }
    }

    [Fact]
    public void Every_mask_has_an_area_and_is_not_everywhere()
    {
        var masks = drawn.Json("masks.json").GetProperty("masks").EnumerateArray().ToArray();
        Assert.Equal(14, masks.Length);
        foreach (var m in masks)
        {
            var area = m.GetProperty("areaMm2").GetDouble();
            Assert.True(area is > 20 and < 0.9 * 518 * 412, $"{m.GetProperty("name")}: {area} mm2");
            Assert.True(File.Exists(drawn.Truth(m.GetProperty("file").GetString()!)));
        }
    }

    [Fact]
    public void The_topmost_mark_lies_where_its_path_goes()
    {
        var marks = File.ReadLines(drawn.Truth("marks.jsonl")).Select(l => JsonDocument.Parse(l).RootElement).ToArray();
        Assert.Equal(Enumerable.Range(1, marks.Length), marks.Select(m => m.GetProperty("number").GetInt32()));
        using var topmost = ImageFile.Open(drawn.Truth("topmost_mark.tif"));
        var row = topmost.Facts.Height / 2;
        var numbers = topmost.ReadWindow(0, row, topmost.Facts.Width, 1)[0].Row(0);
        var mm = 518.0 / topmost.Facts.Width;
        var seen = 0;
        for (var x = 0; x < numbers.Length; x += 7)
        {
            if (numbers[x] == 0) continue;
            seen++;
            var mark = marks[(int)numbers[x] - 1];
            var at = new Point2((x + 0.5) * mm, (row + 0.5) * mm);
            var nearest = mark.GetProperty("pathMm").EnumerateArray().Min(p => new Point2(p[0].GetDouble(), p[1].GetDouble()).DistanceTo(at));
            // The path's points stand up to a quarter of the width apart, and a thin mark is widened to the grid.
            Assert.InRange(nearest, 0, 0.5 * mark.GetProperty("widthMm").GetDouble() + 1.6);
        }
        Assert.InRange(seen, 60, numbers.Length);
    }

    [Fact]
    public void Retouching_over_varnish_is_dark_in_luminescence_and_matched_in_daylight()
    {
        var mask = drawn.Mask("retouching_over_varnish");
        var (uv, uvNear) = InAndAround("UVL_01.tif", "UVL_flat.tif", 1, mask, Retouching.OverVarnish);
        var (day, dayNear) = InAndAround("VIS_01.tif", "VIS_flat.tif", 1, mask, Retouching.OverVarnish);
        Assert.True(uv < 0.35 * uvNear, $"luminescence {uv:0.000} within, {uvNear:0.000} around");
        Assert.InRange(day / dayNear, 0.75, 1.25);
    }

    [Fact]
    public void Retouching_under_varnish_glows_with_the_coat_above_it()
    {
        var (over, _) = InAndAround("UVL_01.tif", "UVL_flat.tif", 1, drawn.Mask("retouching_over_varnish"), Retouching.OverVarnish);
        var (under, near) = InAndAround("UVL_01.tif", "UVL_flat.tif", 1, drawn.Mask("retouching_under_varnish"), Retouching.UnderVarnish);
        Assert.True(under > 1.3 * over && under < 0.7 * near, $"under {under:0.000}, over {over:0.000}, around {near:0.000}");
    }

    [Fact]
    public void Dark_original_paint_is_darker_in_luminescence_than_the_sky_though_varnished()
    {
        var mask = drawn.Mask("dark_original");
        bool Hull(double x, double y) => x is > 250 and < 285 && y is > 290 and < 312 && mask(x, y) > 0.9;
        bool Sky(double x, double y) => x is > 160 and < 250 && y is > 80 and < 120;
        Assert.True(drawn.Mean("UVL_01.tif", "UVL_flat.tif", 1, Hull) < 0.8 * drawn.Mean("UVL_01.tif", "UVL_flat.tif", 1, Sky));
    }

    [Fact]
    public void The_cleaning_window_glows_less_and_is_less_yellow()
    {
        var w = Varnish.Window;
        bool Inside(double x, double y) => x > w.Left + 4 && x < w.Right - 4 && y > w.Top + 4 && y < w.Top + 30;
        bool Beside(double x, double y) => x > w.Right + 6 && x < w.Right + 50 && y > w.Top + 4 && y < w.Top + 30;
        Assert.True(drawn.Mean("UVL_01.tif", "UVL_flat.tif", 1, Inside) < 0.7 * drawn.Mean("UVL_01.tif", "UVL_flat.tif", 1, Beside));
        double Blue(Func<double, double, bool> where) => drawn.Mean("VIS_01.tif", "VIS_flat.tif", 2, where)
            / drawn.Mean("VIS_01.tif", "VIS_flat.tif", 0, where);
        Assert.True(Blue(Inside) > 1.2 * Blue(Beside));
    }

    [Fact]
    public void The_given_up_skiff_is_seen_in_X_rays_and_infrared_but_hardly_in_daylight()
    {
        var mask = drawn.Mask("given-up_skiff");
        // Free of the cradle: its batten covers 437 to 469 mm across, its bar 319 to 357 mm down.
        bool Hull(double x, double y) => x is > 408 and < 434 && mask(x, y) > 0.95;
        bool Near(double x, double y) => x is > 408 and < 434 && y is > 392 and < 402 && mask(x, y) == 0;
        double Ratio(string name, string? flat) => drawn.Mean(name, flat, 0, Hull) / drawn.Mean(name, flat, 0, Near);
        Assert.True(Ratio("XR_plate4.tif", null) > 1.15, $"X-ray {Ratio("XR_plate4.tif", null)}");
        Assert.InRange(Ratio("VIS_01.tif", "VIS_flat.tif"), 0.85, 1.15);
        // Its sheer, drawn in bone black from (424, 371) to (456, 372), against the lead white beneath it.
        bool Sheer(double x, double y) => x is > 426 and < 454 && Math.Abs(y - 371 - (x - 424) / 32) < 0.6;
        bool Below(double x, double y) => x is > 426 and < 454 && y is > 376 and < 381;
        Assert.True(drawn.Mean("IR_01.tif", "IR_flat.tif", 0, Sheer) < 0.92 * drawn.Mean("IR_01.tif", "IR_flat.tif", 0, Below));
        Assert.InRange(drawn.Mean("VIS_01.tif", "VIS_flat.tif", 1, Sheer) / drawn.Mean("VIS_01.tif", "VIS_flat.tif", 1, Below), 0.85, 1.15);
    }

    [Fact]
    public void Cracks_are_dark_lines_in_daylight()
    {
        var mask = drawn.Mask("cracks");
        bool Sky(double x, double y) => x is > 120 and < 500 && y is > 4 and < 220;
        Assert.True(drawn.Mean("VIS_01.tif", "VIS_flat.tif", 1, (x, y) => Sky(x, y) && mask(x, y) > 0.10) < 0.95
            * drawn.Mean("VIS_01.tif", "VIS_flat.tif", 1, (x, y) => Sky(x, y) && mask(x, y) == 0));
    }

    [Fact]
    public void Sections_hold_the_planes_layers_in_their_order_and_thickness()
    {
        foreach (var name in new[] { "section_S1.json", "section_S2.json" })
        {
            var section = drawn.Json(name);
            var layers = section.GetProperty("layers").EnumerateArray().ToArray();
            Assert.Equal(layers.Select(l => l.GetProperty("stackNumber").GetInt32()).Order(),
                layers.Select(l => l.GetProperty("stackNumber").GetInt32()));
            foreach (var layer in layers)
            {
                var plane = layer.GetProperty("planeThicknessUm").EnumerateArray().Average(v => v.GetDouble());
                Assert.InRange(layer.GetProperty("meanThicknessUm").GetDouble(), 0.85 * plane - 0.3, 1.15 * plane + 0.3);
            }
            Assert.True(section.GetProperty("particles").GetArrayLength() > 500);
        }
        Assert.Contains("given-up skiff", File.ReadAllText(drawn.Truth("section_S2.json")), StringComparison.Ordinal);
        Assert.Contains("retouching over varnish", File.ReadAllText(drawn.Truth("section_S1.json")), StringComparison.Ordinal);
    }

    [Fact]
    public void In_the_ultraviolet_micrograph_the_aged_varnish_is_the_brightest_layer()
    {
        var section = drawn.Json("section_S1.json");
        var layers = section.GetProperty("layers").EnumerateArray().ToArray();
        var image = drawn.Read(drawn.Photograph("XSEC_S1_UV.tif"))[1];
        double Brightness(int n)
        {
            var sum = 0.0;
            for (var c = 20; c < 280; c++)
            {
                var (top, low) = (Y(layers[n], c), Y(layers[n - 1], c));
                sum += image[(int)(c * 2 / 0.25), (int)((top + low) / 2 / 0.25)];
            }
            return sum;
        }
        var brightest = Enumerable.Range(1, layers.Length - 1).MaxBy(Brightness);
        Assert.Equal("aged varnish", layers[brightest].GetProperty("name").GetString());
    }

    private static double Y(System.Text.Json.JsonElement layer, int column) => layer.GetProperty("upperBoundary")[column][1].GetDouble();

    /// <summary>Means within a mask and in the ground around its places, mask-free.</summary>
    private (double In, double Around) InAndAround(string name, string flat, int band, Func<double, double, double> mask,
        (float X, float Y, float Rx, float Ry)[] places)
    {
        bool Around(double x, double y) => mask(x, y) == 0 && places.Any(p => Math.Abs(x - p.X) < p.Rx + 8 && Math.Abs(y - p.Y) < p.Ry + 8)
            && x is > 2 and < 516;
        return (drawn.Mean(name, flat, band, (x, y) => mask(x, y) > 0.97), drawn.Mean(name, flat, band, Around));
    }
}
