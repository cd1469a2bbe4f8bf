using System.Net;

namespace Sandarac.Server.Tests;

public sealed class RestartTests
{
    [Fact]
    public async Task Zones_survive_the_servers_end_with_their_revisions()
    {
        await using var server = new RunningServer();
        await server.InitializeAsync();
        var zones = $"/api/paintings/{server.Seed.Painting.Id}/zones";
        using var created = await server.Client.SendJsonAsync(HttpMethod.Post, zones, new { name = "before", geometry = new { type = "Point", coordinates = new[] { 12.5, 40.25 } } });
        var id = (await created.JsonAsync(HttpStatusCode.Created)).GetProperty("id").GetString();
        using var changed = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", new { name = "after" }, 1);
        await changed.JsonAsync();

        await server.RestartAsync();

        var zone = Assert.Single((await server.Client.GetJsonAsync(zones)).EnumerateArray());
        Assert.Equal(("after", 2), (zone.GetProperty("name").GetString(), zone.GetProperty("revision").GetInt32()));
        Assert.Equal("[12.5,40.25]", zone.GetProperty("geometry").GetProperty("coordinates").GetRawText().Replace(" ", "", StringComparison.Ordinal));
        using var again = await server.Client.SendJsonAsync(HttpMethod.Put, $"/api/zones/{id}", new { name = "again" }, 2);
        await again.JsonAsync();
    }
}
