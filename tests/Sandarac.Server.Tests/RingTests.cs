using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Sandarac.Server.Tests;

public sealed partial class RingTests(RunningServer server)
{
    private const int FirstYear = 1400, Rings = 220;

    private readonly CancellationToken _stop = TestContext.Current.CancellationToken;

    private string Painting => $"/paintings/{server.Seed.Painting.Id}";

    /// <summary>Trees drawn with one weather; the truth is the year in which the board's stretch ends.</summary>
    [Fact]
    public async Task A_board_is_imported_dated_and_shown()
    {
        var board = (await ImportAsync(Csv("ring", [("SHOWN1", Tree(4)[40..160])], 1)))[0].GetProperty("id").GetString();
        var reference = await ReferenceAsync("Drawn oaks", Csv("year", [("A", Tree(1)), ("B", Tree(2)), ("C", Tree(3))], FirstYear));
        var dating = await server.Client.GetJsonAsync($"/api/ring-series/{board}/dating?references={reference}&model=southern-baltic");
        Assert.Equal(("one-reference", FirstYear + 159), (dating.GetProperty("strength").GetString(), dating.GetProperty("lastRing").GetInt32()));
        Assert.Equal("CALC", dating.GetProperty("felling").GetProperty("modelFlag").GetString());
        var page = await PageAsync($"{Painting}/panel?series={board}&calc=dating&references={reference}&transform=BailliePilcher&convention=Pairs&overlap=40&model=southern-baltic&seasoning=oak-16-17");
        Assert.Contains("SHOWN1", page, StringComparison.Ordinal);
        Assert.Contains($"Last measured ring {FirstYear + 159}", page, StringComparison.Ordinal);
        Assert.Contains("not verified", page, StringComparison.Ordinal);
        Assert.Equal(2, SvgChart().Count(page));
        using var accepted = await PostAsync($"{Painting}/panel?series={board}&calc=dating&references={reference}&transform=BailliePilcher&convention=Pairs&overlap=40&model=&seasoning=", "accept-date");
        Assert.Equal(HttpStatusCode.Redirect, accepted.StatusCode);
        Assert.Equal(FirstYear + 40, (await server.Client.GetJsonAsync($"/api/ring-series/{board}")).GetProperty("content").GetProperty("firstYear").GetInt32());
        Assert.Contains("SHOWN1", await server.Client.GetStringAsync($"/api{Painting}/ring-series.rwl", _stop), StringComparison.Ordinal);
    }

    /// <summary>The form's token stands in the body: a page must tell what is too large before the body is read.</summary>
    [Fact]
    public async Task A_file_that_is_larger_than_the_server_takes_is_told_in_words()
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(new byte[3 << 20]), "rings", "large.rwl" } };
        using var answer = await server.Client.PostAsync($"{Painting}/panel", form, _stop);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("The request is larger than 2 MB.", await answer.Content.ReadAsStringAsync(_stop), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_wrong_is_said_on_the_page_and_by_the_API()
    {
        var board = (await ImportAsync(Csv("ring", [("WRONG1", Tree(5)[..60])], 1)))[0].GetProperty("id").GetString();
        await ReferenceAsync("Drawn oaks beside", Csv("year", [("A", Tree(1))], FirstYear));
        foreach (var (query, says) in new[] { ("references=x&overlap=40", "A date needs references"), ("overlap=2", "A date needs references"), ($"references={Guid.NewGuid()}&overlap=40", "There is no such reference") })
            Assert.Contains(says, await PageAsync($"{Painting}/panel?series={board}&calc=dating&transform=BailliePilcher&convention=Pairs&model=&seasoning=&{query}"), StringComparison.Ordinal);
        foreach (var (query, says) in new[] { ("wood=oak&widths=&angle=0", "1 to 100 boards"), ("wood=oak&widths=a&angle=0", "is not a number"), ("wood=moon&widths=3&angle=0", "has no moon"), ("wood=oak&widths=300&angle=100", "cannot be 100") })
            Assert.Contains(says, await PageAsync($"{Painting}/panel?calc=movement&from=50&to=35&temperature=20&{query}"), StringComparison.Ordinal);
        foreach (var (path, code) in new[] { ($"/api/ring-series/{Guid.NewGuid()}/dating?references={Guid.NewGuid()}", "unknown-ring-series"), ($"/api/ring-series/{board}/dating?references={Guid.NewGuid()}&model=moon", "unknown-reference"), ($"/api/ring-series/{board}/strip", "no-strip") })
        {
            using var answer = await server.Client.GetAsync(path, _stop);
            Assert.Equal(code, JsonElement.Parse(await answer.Content.ReadAsStringAsync(_stop)).GetProperty("code").GetString());
            Assert.InRange((int)answer.StatusCode, 400, 404);
        }
        using var broken = await server.Client.PostAsync($"/api{Painting}/ring-series/import?fileName=b.rwl", new StringContent("not rings"), _stop);
        await broken.ProblemAsync(HttpStatusCode.BadRequest, "rings-empty");
    }

    [Fact]
    public async Task The_panel_moves_by_the_figure_that_the_formula_gives()
    {
        // 300 mm radial oak from 50 to 35 %: 9.27 to 6.96 % moisture, 300 x 0.052 x 2.31 / 28 (worked by hand).
        Assert.Contains("Shrinks by at most about 1.29 mm", await PageAsync($"{Painting}/panel?calc=movement&wood=oak&widths=300&angle=0&from=50&to=35&temperature=20"), StringComparison.Ordinal);
        Assert.Contains("cradle", await PageAsync($"{Painting}/panel?calc=movement&wood=oak&widths=300+200&angle=0&from=50&to=35&temperature=20"), StringComparison.Ordinal);
    }

    /// <summary>Ring widths of one tree: a weather common to all, and as much of its own.</summary>
    private static double[] Tree(int seed)
    {
        var (weather, own) = (new Random(1), new Random(100 + seed));
        return [.. Enumerable.Range(0, Rings).Select(_ => Math.Round(1.5 * Math.Exp(0.5 * (weather.NextDouble() - 0.5) + 0.3 * (own.NextDouble() - 0.5)), 3))];
    }

    private static string Csv(string first, (string Name, double[] Widths)[] series, int begin) => string.Join('\n', [$"{first},{string.Join(',', series.Select(s => s.Name))}",
        .. series[0].Widths.Select((_, i) => $"{begin + i},{string.Join(',', series.Select(s => s.Widths[i].ToString(CultureInfo.InvariantCulture)))}")]);

    private async Task<JsonElement> ImportAsync(string text)
    {
        using var answer = await server.Client.PostAsync($"/api{Painting}/ring-series/import?fileName=b.csv", new StringContent(text), _stop);
        return await answer.JsonAsync();
    }

    private async Task<string> ReferenceAsync(string name, string text)
    {
        using var answer = await server.Client.PostAsync($"/api/reference-chronologies?name={Uri.EscapeDataString(name)}&source=drawn&fileName=r.csv", new StringContent(text), _stop);
        return (await answer.JsonAsync()).GetProperty("id").GetString()!;
    }

    private async Task<string> PageAsync(string path)
    {
        using var answer = await server.Client.GetAsync(path, _stop);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(_stop));
    }

    /// <summary>Sends a form as it stands on the page, as a browser without script would.</summary>
    private async Task<HttpResponseMessage> PostAsync(string path, string handler)
    {
        using var page = await server.Client.GetAsync(path, _stop);
        var form = (await page.Content.ReadAsStringAsync(_stop)).Split("<form").Single(f => f.Contains($"value=\"{handler}\"", StringComparison.Ordinal));
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent(Hidden().Matches(form).ToDictionary(m => m.Groups[1].Value, m => WebUtility.HtmlDecode(m.Groups[2].Value))) };
        request.Headers.Add("Cookie", page.Headers.GetValues("Set-Cookie").Select(c => c.Split(';')[0]));
        return await server.Client.SendAsync(request, _stop);
    }

    [GeneratedRegex("<svg class=\"chart\"")]
    private static partial Regex SvgChart();

    [GeneratedRegex("""<input type="hidden" name="([^"]+)" value="([^"]*)" """)]
    private static partial Regex Hidden();
}
