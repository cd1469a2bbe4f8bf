using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Sandarac.Studio.Record;

/// <summary>Tells every SQLite connection to flush each commit to the disk: WAL alone may lose the last ones when the power fails.</summary>
internal sealed class DurableCommits : DbConnectionInterceptor
{
    public static readonly DurableCommits Instance = new();

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Configure(connection);

    public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Configure(connection);
        return Task.CompletedTask;
    }

    private static void Configure(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA synchronous = FULL; PRAGMA busy_timeout = 30000;";
        command.ExecuteNonQuery();
    }
}
