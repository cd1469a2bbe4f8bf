using System.Net;
using System.Net.Http.Headers;
using System.Text;

namespace Sandarac.Server.Tests;

public sealed class DatingTests(RunningServer server)
{
    private static ByteArrayContent Spectrum()
    {
        double At(int c, double kev, double counts) => counts * Math.Exp(-0.5 * Math.Pow((0.02 * c - kev) / 0.064, 2));
        var rows = Enumerable.Range(0, 1024).Select(c => FormattableString.Invariant($"{0.02 * c:0.00},{Math.Round(20 + At(c, 6.40, 4000) + At(c, 7.06, 540))}"));
        return new ByteArrayContent(Encoding.ASCII.GetBytes("keV,counts\n" + string.Join('\n', rows))) { Headers = { ContentType = new MediaTypeHeaderValue("text/plain") } };
    }

    [Fact]
    public async Task A_spectrum_is_taken_in_and_shown_with_its_elements_and_the_caution()
    {
        var (client, id, cancel) = (server.Client, server.Seed.Painting.Id, TestContext.Current.CancellationToken);
        using var sent = await client.PostAsync($"/api/paintings/{id}/spectrum-files?file=P1.csv&anode=Rh&kv=40", Spectrum(), cancel);
        var row = await sent.JsonAsync(HttpStatusCode.Created);
        var key = row.GetProperty("id").GetGuid();
        var page = WebUtility.HtmlDecode(await client.GetStringAsync($"/paintings/{id}/dating?spectrum={key}", cancel));
        Assert.Contains("X-ray sources: licensed use only", page, StringComparison.Ordinal);
        Assert.Contains("Fe Ka", page, StringComparison.Ordinal);
        Assert.Contains("stand by themselves", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
        Assert.Contains("<svg", await client.GetStringAsync($"/api/spectra/{key}/plot.svg", cancel), StringComparison.Ordinal);
        Assert.Equal("Fe", (await client.GetJsonAsync($"/api/spectra/{key}/analysis")).GetProperty("elements")[0].GetProperty("element").GetString());
        using var refused = await client.PostAsync($"/api/paintings/{id}/spectrum-files?file=x.csv", new ByteArrayContent([0, 1, 2]), cancel);
        await refused.ProblemAsync(HttpStatusCode.BadRequest, "spectrum-not-text");
    }

    [Fact]
    public async Task A_material_is_stated_and_its_years_and_source_stand_beside_it()
    {
        var (client, id) = (server.Client, server.Seed.Painting.Id);
        using var sent = await client.SendJsonAsync(HttpMethod.Post, $"/api/paintings/{id}/materials", new { material = "Prussian blue", basis = "blue particles", confidence = "Possible" });
        await sent.JsonAsync(HttpStatusCode.Created);
        var page = WebUtility.HtmlDecode(await client.GetStringAsync($"/paintings/{id}/dating", TestContext.Current.CancellationToken));
        Assert.Contains("Prussian blue", page, StringComparison.Ordinal);
        Assert.Contains("1704 or 1706", page, StringComparison.Ordinal);
        Assert.Contains("A check of dates, not of authorship", page, StringComparison.Ordinal);
        Assert.NotEqual(0, (await client.GetJsonAsync($"/api/paintings/{id}/dating")).GetArrayLength());
        Assert.Contains("Prussian blue", await client.GetStringAsync($"/api/paintings/{id}/dating.svg", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
