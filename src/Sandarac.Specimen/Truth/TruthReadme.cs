namespace Sandarac.Specimen.Truth;

/// <summary>The page that explains the truth folder.</summary>
internal static class TruthReadme
{
    public const string Text = """
        # What is true about this specimen

        The photographs beside this folder show an invented painting drawn by physics. This folder says what really is there, so that a result can be checked.
        Nothing that examines the photographs may read it.

        The plane: millimetres, origin at the upper left corner of the painted face, x right, y down. A raster's pixel (0,0) has its outer corner at the origin.

        | file | holds |
        |---|---|
        | `poses.json` | for each photograph: size, homography from ideal pixels to mm (nine coefficients, row by row), radial distortion, the face's four corners in pixels (upper left, upper right, lower right, lower left), lamp azimuth (degrees clockwise from the top, seen from the front) and elevation, gain, vignetting, blur (standard deviation, pixels), noise (electrons), the sensor's colour matrix, lamp fall-off at the corners relative to the centre |
        | `height_um.tif` | height of the finished surface, um, from the panel's mean face; float32; the panel's convexity is part of it |
        | `masks.json`, `masks/*.tif` | for each phenomenon the share of the pixel it fills, 0-255 |
        | `layers.json` | every layer from the ground upward: paint (Kubelka-Munk K and S in R, G, B and infrared, luminescence, attenuation), share covered, thickness |
        | `layers/NN_name_um100.tif` | mean thickness over cells of `cellMm`, in hundredths of um, 16 bit |
        | `layers/NN_name_cover.tif` | share of the cell that holds more than 0.5 um of the layer, 0-255 |
        | `marks.jsonl` | every mark of the brush in the order of laying, one a line, numbered from 1: passage, width, mean thickness at its start, distance of its furrows where the brush is fully pressed down, path |
        | `topmost_mark.tif` | number of the mark that lies on top with 2 um or more, 0 for none; float32 of whole numbers; marks scraped away, lost or retouched over are still named here: see the masks |
        | `section_S1.json`, `section_S2.json` | layer boundaries (polylines) and particles (1.5 um and more), in um from the micrograph's upper left corner; where on the plane the sample was taken |
        | `changes.json`, `changes.tif` | of a painting photographed again: every change since the first session, with place, size and colour difference (CIELAB 1976); on the plane the number of the change that fills at least a third of the pixel; none in an unchanged painting |
        | `chart.json` | CIELAB values and places of the 24 patches, the scale, and the turned square |

        Distortion: with r the distance of an ideal pixel from `centre` divided by `radius`, the observed pixel lies at centre + (ideal - centre)(1 + k1 r^2 + k2 r^4).
        From a plane point to the photograph: apply the inverse of `pixelToPlane`, then the distortion.

        Values in a file: colour files are sRGB-encoded, grey ones have gamma 2.2; decoded to linear they are gain x lamp fall-off x vignetting x radiance, with noise.
        A flat-field frame shows a grey card of reflectance 0.55 under the same lamps and lens. In luminescence the card stands for an even luminescence of 0.55.

        Models and what they leave out: paint layers follow Kubelka and Munk for finite thickness (Kubelka 1948) without reflection at the surface; wet paint taken up by a brush is
        known by its reflectance only; varnish follows Beer-Lambert's law, does not fill furrows, and half of its luminescence comes back
        only as far as the paint beneath reflects it; raking light is parallel for shading and shadows and falls off as a point lamp;
        X-rays run straight through at one effective energy; pigments' figures are of the right order, chosen, not measured.
        """;
}
