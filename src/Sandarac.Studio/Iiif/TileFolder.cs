using System.Globalization;
using System.Text.Json.Nodes;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Studio.Iiif;

/// <summary>
/// One picture as the plain files of an image service: tiles, some whole pictures, and the description that names them. IIIF Image API 3.0, level 0
/// (https://iiif.io/api/image/3.0/); regions and sizes of tiles by its implementation notes, section 3: both round up, as the pyramid's levels do.
/// </summary>
internal static class TileFolder
{
    /// <summary>Whole pictures are written up to this longer side; of larger ones only tiles.</summary>
    private const int LargestWhole = 1024;

    /// <summary>How many files a picture on this canvas makes.</summary>
    public static long Files(CanvasGrid canvas) => Tiles(canvas).LongCount() + Wholes(canvas).Count() + 2;

    /// <summary>Columns and rows of the largest whole picture.</summary>
    public static (int Width, int Height) Largest(CanvasGrid canvas) => canvas.SizeAt(Wholes(canvas).First());

    /// <summary>Columns and rows of the smallest whole picture, good for a thumbnail.</summary>
    public static (int Width, int Height) Smallest(CanvasGrid canvas) => canvas.SizeAt(Wholes(canvas).Last());

    /// <summary>Address of a whole picture, below the picture's own.</summary>
    public static string Whole((int Width, int Height) size) => string.Create(CultureInfo.InvariantCulture, $"full/{size.Width},{size.Height}/0/default.jpg");

    /// <summary>Writes everything but the description.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="canvas">Its canvas.</param>
    /// <param name="folder">A new folder.</param>
    /// <param name="written">Told of every file.</param>
    /// <param name="cancellation">Cancels between files.</param>
    public static void Write(PlanePicture picture, CanvasGrid canvas, string folder, Action written, CancellationToken cancellation)
    {
        Parallel.ForEach(Tiles(canvas), new ParallelOptions { CancellationToken = cancellation }, tile =>
        {
            Save(folder, tile.Address(canvas), picture.Jpeg(tile.Scale, tile.Left, tile.Top, tile.Width, tile.Height));
            written();
        });
        foreach (var scale in Wholes(canvas))
        {
            cancellation.ThrowIfCancellationRequested();
            var size = canvas.SizeAt(scale);
            var bytes = picture.Jpeg(scale, 0, 0, size.Width, size.Height);
            Save(folder, Whole(size), bytes);
            // The largest is what a client gets that asks for as much as there is.
            if (size == Largest(canvas))
            {
                Save(folder, "full/max/0/default.jpg", bytes);
                written();
            }
            written();
        }
    }

    /// <summary>The description, info.json.</summary>
    /// <param name="canvas">The canvas.</param>
    /// <param name="id">The picture's own address, without a slash at the end.</param>
    /// <param name="rights">Address of a licence or statement of rights; null when none is stated.</param>
    public static JsonObject Information(CanvasGrid canvas, string id, string? rights)
    {
        var largest = Largest(canvas);
        var info = new JsonObject
        {
            ["@context"] = "http://iiif.io/api/image/3/context.json", ["id"] = id, ["type"] = "ImageService3", ["protocol"] = "http://iiif.io/api/image", ["profile"] = "level0",
            ["width"] = canvas.Width, ["height"] = canvas.Height,
            ["sizes"] = new JsonArray([.. Wholes(canvas).Reverse().Select(canvas.SizeAt).Select(s => new JsonObject { ["width"] = s.Width, ["height"] = s.Height })]),
            ["tiles"] = new JsonArray(new JsonObject
            {
                ["width"] = PyramidFile.TileSize, ["height"] = PyramidFile.TileSize, ["scaleFactors"] = new JsonArray([.. Enumerable.Range(0, canvas.Scales).Select(s => JsonValue.Create(1 << s))]),
            }),
        };
        // Tiles must fit within the limits too; which whole picture is the largest its longer side decides.
        if (largest.Width < canvas.Width) (info["maxWidth"], info["maxHeight"]) = (Math.Max(largest.Width, PyramidFile.TileSize), Math.Max(largest.Height, PyramidFile.TileSize));
        if (rights is not null) info["rights"] = rights;
        return info;
    }

    /// <summary>Tiles of every scale that takes more than one; a scale that takes one is a whole picture.</summary>
    private static IEnumerable<Tile> Tiles(CanvasGrid canvas)
    {
        const int size = PyramidFile.TileSize;
        for (var scale = 0; scale < canvas.Scales; scale++)
        {
            var (width, height) = canvas.SizeAt(scale);
            if (Math.Max(width, height) <= size) yield break;
            for (var top = 0; top < height; top += size)
                for (var left = 0; left < width; left += size)
                    yield return new Tile(scale, left, top, Math.Min(size, width - left), Math.Min(size, height - top));
        }
    }

    /// <summary>Scales of whole pictures, the largest picture first.</summary>
    private static IEnumerable<int> Wholes(CanvasGrid canvas) =>
        Enumerable.Range(0, canvas.Scales).Where(s => Math.Max(canvas.SizeAt(s).Width, canvas.SizeAt(s).Height) <= LargestWhole);

    private static void Save(string folder, string address, byte[] bytes)
    {
        var path = Path.Combine(folder, address);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, bytes);
    }

    private readonly record struct Tile(int Scale, int Left, int Top, int Width, int Height)
    {
        /// <summary>The region in pixels of the whole canvas, then the size.</summary>
        public string Address(CanvasGrid canvas)
        {
            var (x, y) = (Left << Scale, Top << Scale);
            var (w, h) = (Math.Min(Width << Scale, canvas.Width - x), Math.Min(Height << Scale, canvas.Height - y));
            return string.Create(CultureInfo.InvariantCulture, $"{x},{y},{w},{h}/{Width},{Height}/0/default.jpg");
        }
    }
}
