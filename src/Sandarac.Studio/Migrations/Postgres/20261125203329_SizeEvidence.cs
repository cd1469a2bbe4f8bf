using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Sandarac.Studio.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class SizeEvidence : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<double>(
                name: "SizeUncertainty",
                table: "Paintings",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "SizeWarnings",
                table: "Paintings",
                type: "text",
                nullable: false,
                defaultValue: "[]");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "SizeUncertainty",
                table: "Paintings");

            migrationBuilder.DropColumn(
                name: "SizeWarnings",
                table: "Paintings");
        }
    }
}
