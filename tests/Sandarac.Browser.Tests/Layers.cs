using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;

namespace Sandarac.Browser.Tests;

/// <summary>The painting's layers as the API gives them, past the page.</summary>
internal static class Layers
{
    public static async Task<JsonElement> LayerAsync(this EaselPage page, Guid painting, string label, bool onPlane = true)
    {
        var answer = await page.AskAsync($"/api/paintings/{painting}");
        return answer.GetProperty("layers").EnumerateArray()
            .First(l => l.GetProperty("label").GetString() == label && l.GetProperty("onPlane").GetBoolean() == onPlane);
    }

    public static string Id(this JsonElement layer) => layer.GetProperty("id").GetString()!;

    public static string Photograph(this JsonElement layer) => layer.GetProperty("photographId").GetString()!;

    public static double Number(this JsonElement layer, string name) => layer.GetProperty(name).GetDouble();

    /// <summary>One 16-bit tile of full resolution, 512 x 512, bands interleaved.</summary>
    public static async Task<ushort[]> TileAsync(this EaselPage page, JsonElement layer, int column, int row)
    {
        using var client = new HttpClient { BaseAddress = page.Server };
        var bytes = await client.GetByteArrayAsync($"/api/layers/{layer.Id()}/tiles/0/{column}/{row}?v={layer.GetProperty("version").GetString()}",
            TestContext.Current.CancellationToken);
        return MemoryMarshal.Cast<byte, ushort>(bytes).ToArray();
    }

    /// <summary>A number for a query.</summary>
    public static string Text(this double value) => value.ToString(CultureInfo.InvariantCulture);
}
