using System.Net;
using System.Net.Http.Headers;
using System.Runtime.InteropServices;
using NetVips;

namespace Sandarac.Server.Tests;

public sealed class TileTests(RunningServer server)
{
    private const int Size = 512;
    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Deep => $"/api/layers/p-{server.Seed.Deep.Id}";

    private string Numbers => $"/api/layers/r-{server.Seed.Numbers.Id}-map";

    private string Shallow => $"/api/layers/o-{server.Seed.Shallow.Id}";

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    [InlineData(2, 1)] // right and lower edge: 177 columns and 389 rows belong to the image
    public async Task A_16_bit_tile_holds_the_files_own_values(int column, int row)
    {
        var tile = MemoryMarshal.Cast<byte, ushort>(await server.Client.GetByteArrayAsync($"{Deep}/tiles/0/{column}/{row}", _stop)).ToArray();
        Assert.Equal(Size * Size * 3, tile.Length);
        for (int y = 0, i = 0; y < Size; y++)
            for (var x = 0; x < Size; x++)
                for (var b = 0; b < 3; b++, i++)
                {
                    var (px, py) = (column * Size + x, row * Size + y);
                    var expected = px < Seed.Width && py < Seed.Height ? Seed.DeepValue(px, py, b) : (ushort)0;
                    if (tile[i] != expected) Assert.Fail($"({px}, {py}) band {b}: {tile[i]} instead of {expected}");
                }
    }

    [Fact]
    public async Task A_float_tile_holds_the_values_and_NaN_beyond_the_edge()
    {
        var tile = MemoryMarshal.Cast<byte, float>(await server.Client.GetByteArrayAsync($"{Numbers}/tiles/0/2/1", _stop)).ToArray();
        Assert.Equal(Size * Size, tile.Length);
        Assert.Equal(Seed.Number(1024, 512), tile[0]);
        Assert.Equal(Seed.Number(1200, 900), tile[388 * Size + 176]);
        Assert.True(float.IsNaN(tile[177]));
        Assert.True(float.IsNaN(tile[389 * Size]));
    }

    [Fact]
    public async Task A_further_level_is_the_mean_of_four()
    {
        var tile = MemoryMarshal.Cast<byte, float>(await server.Client.GetByteArrayAsync($"{Numbers}/tiles/1/0/0", _stop)).ToArray();
        Assert.Equal((Seed.Number(20, 30) + Seed.Number(21, 30) + Seed.Number(20, 31) + Seed.Number(21, 31)) / 4, tile[15 * Size + 10]);
    }

    [Fact]
    public async Task An_8_bit_tile_is_a_picture_close_to_the_files_values()
    {
        using var answer = await server.Client.GetAsync($"{Shallow}/tiles/0/0/0", _stop);
        Assert.Equal("image/jpeg", answer.Content.Headers.ContentType?.MediaType);
        using var picture = Image.NewFromBuffer(await answer.Content.ReadAsByteArrayAsync(_stop));
        Assert.Equal((Size, Size, 3), (picture.Width, picture.Height, picture.Bands));
    }

    [Fact]
    public async Task With_its_version_a_tile_is_kept_for_good_and_answered_by_its_tag()
    {
        var version = server.Seed.Deep.Pyramid!.Sha256[..16];
        using var first = await server.Client.GetAsync($"{Deep}/tiles/1/0/0?v={version}", _stop);
        Assert.Equal("private, max-age=31536000, immutable", Normal(first.Headers.CacheControl));
        using var again = new HttpRequestMessage(HttpMethod.Get, $"{Deep}/tiles/1/0/0?v={version}");
        again.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using var second = await server.Client.SendAsync(again, _stop);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        Assert.Empty(await second.Content.ReadAsByteArrayAsync(_stop));
    }

    [Fact]
    public async Task Without_a_version_the_browser_asks_again()
    {
        using var answer = await server.Client.GetAsync($"{Deep}/tiles/1/0/0", _stop);
        Assert.True(answer.Headers.CacheControl is { NoCache: true, MaxAge: null });
    }

    [Fact]
    public async Task A_thumbnail_is_256_on_its_longest_side()
    {
        foreach (var layer in new[] { Deep, Shallow, Numbers })
        {
            using var answer = await server.Client.GetAsync($"{layer}/thumbnail", _stop);
            Assert.Equal("image/webp", answer.Content.Headers.ContentType?.MediaType);
            using var picture = Image.NewFromBuffer(await answer.Content.ReadAsByteArrayAsync(_stop));
            Assert.Equal((256, 192), (picture.Width, picture.Height));
        }
    }

    [Theory]
    [InlineData("tiles/0/3/0", "unknown-tile")]
    [InlineData("tiles/0/0/2", "unknown-tile")]
    [InlineData("tiles/9/0/0", "unknown-tile")]
    [InlineData("tiles/-1/0/0", "unknown-tile")]
    [InlineData("tiles/0/-1/0", "unknown-tile")]
    [InlineData("tiles/2147483647/2147483647/2147483647", "unknown-tile")]
    [InlineData("tiles/0/99999999999999999999/0", "unknown-address")]
    [InlineData("tiles/0/NaN/0", "unknown-address")]
    [InlineData("tiles/0/0/0?v=0123456789abcdef", "unknown-version")]
    [InlineData("thumbnail?v=..", "unknown-version")]
    public async Task What_is_not_there_is_said(string path, string code)
    {
        using var answer = await server.Client.GetAsync($"{Deep}/{path}", _stop);
        await answer.ProblemAsync(HttpStatusCode.NotFound, code);
        Assert.True(answer.Headers.CacheControl is not { MaxAge: not null });
    }

    [Fact]
    public async Task A_part_of_a_layer_is_a_picture_that_the_browser_keeps()
    {
        using var answer = await server.Client.GetAsync($"{Deep}/detail?left=10&top=10&width=40.5&height=30&longest=200", _stop);
        Assert.Equal((HttpStatusCode.OK, "image/webp"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        Assert.Equal("RIFF", System.Text.Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(_stop), 0, 4));
        using var again = new HttpRequestMessage(HttpMethod.Get, $"{Deep}/detail?left=10&top=10&width=40.5&height=30&longest=200");
        again.Headers.IfNoneMatch.Add(answer.Headers.ETag!);
        using var known = await server.Client.SendAsync(again, _stop);
        Assert.Equal(HttpStatusCode.NotModified, known.StatusCode);
    }

    [Theory]
    [InlineData("left=10&top=10&width=0&height=30&longest=200", "place")]
    [InlineData("left=NaN&top=10&width=30&height=30&longest=200", "place")]
    [InlineData("left=10&top=10&width=30&height=30&longest=100000", "place")]
    [InlineData("left=10&top=10&width=30&longest=100", "request-malformed")]
    public async Task A_place_that_cannot_be_is_refused_and_the_refusal_is_not_kept(string place, string code)
    {
        using var answer = await server.Client.GetAsync($"{Deep}/detail?{place}", _stop);
        await answer.ProblemAsync(HttpStatusCode.BadRequest, code);
        Assert.True(answer.Headers is { ETag: null, CacheControl: not { MaxAge: not null } });
    }

    [Theory]
    [InlineData("p-00000000-0000-0000-0000-000000000000")]
    [InlineData("p-")]
    [InlineData("x")]
    [InlineData("r-00000000-0000-0000-0000-000000000000-map")]
    [InlineData("..%2f..%2fstudio.db")]
    public async Task An_unknown_layer_is_said(string layer)
    {
        using var answer = await server.Client.GetAsync($"/api/layers/{layer}/thumbnail", _stop);
        await answer.ProblemAsync(HttpStatusCode.NotFound, "unknown-layer");
    }

    [Fact]
    public async Task Many_at_once_get_the_same_bytes()
    {
        var once = await server.Client.GetByteArrayAsync($"{Shallow}/tiles/0/1/1", _stop);
        var many = await Task.WhenAll(Enumerable.Range(0, 64).Select(i => server.Client.GetByteArrayAsync($"{(i % 2 == 0 ? Shallow : Deep)}/tiles/0/1/1", _stop)));
        Assert.All(many.Where((_, i) => i % 2 == 0), tile => Assert.Equal(once, tile));
    }

    private static string Normal(CacheControlHeaderValue? header) =>
        $"{(header!.Private ? "private, " : "")}max-age={header.MaxAge!.Value.TotalSeconds}{string.Concat(header.Extensions.Select(e => ", " + e.Name))}";
}
