using System.Net;

namespace Sandarac.Server.Tests;

public sealed class CheckTests(RunningServer server)
{
    private string Api => $"/api/paintings/{server.Seed.Painting.Id}";

    [Fact]
    public async Task A_check_is_begun_answered_sealed_and_signed()
    {
        using var stated = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/findings", new { observation = "a dent", author = "Marta Oud" });
        var finding = (await stated.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/states", new { name = "before the loan", occasion = "outgoing", entries = new[] { new { findingId = finding, standing = "asBefore", note = "" } } });
        var baseline = (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var begun = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/states/{baseline}/checks", new { name = "unpacking", occasion = "incoming", on = "2026-03-04" });
        var check = (await begun.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var tooSoon = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/states/{check}/seal", new { reason = "" }, 1);
        await tooSoon.ProblemAsync(HttpStatusCode.BadRequest, "state-open");
        using var answered = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/states/{check}/entries/{finding}", new { standing = "changed", note = "deeper" }, 1);
        Assert.Equal(2, (await answered.JsonAsync()).GetProperty("revision").GetInt32());
        using var stale = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/states/{check}/entries/{finding}", new { standing = "gone", note = "" }, 1);
        await stale.ProblemAsync(HttpStatusCode.PreconditionFailed, "state-changed");
        using var sealing = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/states/{check}/seal", new { reason = "" }, 2);
        var hash = (await sealing.JsonAsync()).GetProperty("sha256").GetString();
        using var signed = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/states/{check}/signatures", new { sha256 = hash, name = "Ada", role = "courier", organisation = "lender" });
        Assert.Equal(HttpStatusCode.Created, signed.StatusCode);
        var seal = await server.Client.GetJsonAsync($"/api/states/{check}/seal");
        Assert.Equal((0, 1), (seal.GetProperty("problems").GetArrayLength(), seal.GetProperty("signatures").GetArrayLength()));
        var page = await server.Client.GetStringAsync($"/paintings/{server.Seed.Painting.Id}/checks?state={check}", TestContext.Current.CancellationToken);
        Assert.Contains(hash!, page, StringComparison.Ordinal);
        Assert.Contains("changed: deeper", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Seal this state", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_without_photographs_in_one_light_compares_nothing()
    {
        using var made = await server.Client.SendJsonAsync(HttpMethod.Post, $"{Api}/states", new { name = "alone" });
        var id = (await made.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var compared = await server.Client.SendJsonAsync(HttpMethod.Post, $"/api/states/{id}/compare", null);
        await compared.ProblemAsync(HttpStatusCode.BadRequest, "no-pairs");
    }
}
